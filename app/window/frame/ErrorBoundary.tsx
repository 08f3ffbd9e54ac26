import { Component, type ErrorInfo, type ReactNode } from 'react';
import { windowWords } from '../../../src/words/window.ts';
import { Button } from '../look/Button.tsx';
import styles from './ErrorBoundary.module.css';

interface Caught {
  readonly error: Error | null;
  readonly where: string;
}

/** Shows a calm page where a screen could not be drawn. Acts were stored as they were made; nothing is lost. */
export class ErrorBoundary extends Component<{ readonly children: ReactNode }, Caught> {
  override state: Caught = { error: null, where: '' };

  static getDerivedStateFromError(error: unknown): Partial<Caught> {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  override componentDidCatch(_error: unknown, info: ErrorInfo): void {
    this.setState({ where: info.componentStack ?? '' });
  }

  override render(): ReactNode {
    const { error, where } = this.state;
    if (!error) return this.props.children;
    return (
      <section className={styles['broken']} role="alert">
        <h1>{windowWords.broken.title}</h1>
        <p>{windowWords.broken.text}</p>
        <p className={styles['acts']}>
          <Button
            kind="main"
            onClick={() => {
              window.location.reload();
            }}
          >
            {windowWords.broken.reload}
          </Button>
          <Button
            onClick={() => {
              window.location.hash = '#/library';
              this.setState({ error: null, where: '' });
            }}
          >
            {windowWords.broken.library}
          </Button>
        </p>
        <details>
          <summary>{windowWords.broken.details}</summary>
          <pre className={styles['details']}>{`${error.stack ?? error.message}\n${where}`}</pre>
        </details>
      </section>
    );
  }
}
