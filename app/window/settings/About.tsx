import { useEffect, useState } from 'react';
import type { CallResult } from '../../../src/host/contract/calls.ts';
import { settingsWords } from '../../../src/words/settings.ts';
import { useWorkbench } from '../stores/react.ts';
import styles from './About.module.css';

const words = settingsWords.about;

/** Where the library is, which version this is, and which ffmpeg it uses. */
export function About() {
  const { host, shell, notices } = useWorkbench();
  const [about, setAbout] = useState<CallResult<'library.about'> | null>(null);
  useEffect(() => {
    let gone = false;
    host.call('library.about', {}).then(
      (answer) => {
        if (!gone) setAbout(answer);
      },
      (error: unknown) => {
        if (!gone) notices.getState().trouble(error);
      },
    );
    return () => {
      gone = true;
    };
  }, [host, notices]);
  return (
    <section className={styles['section']}>
      <h2>{words.title}</h2>
      {about && (
        <dl className={styles['facts']}>
          <dt>{words.folder}</dt>
          <dd>{about.folder}</dd>
          <dt>{words.version}</dt>
          <dd>{about.version}</dd>
          <dt>{words.ffmpeg}</dt>
          <dd>{about.ffmpeg}</dd>
          <dt>{words.shell}</dt>
          <dd>{words.shells[shell.kind]}</dd>
        </dl>
      )}
      {about?.demo && <p>{words.demo}</p>}
      <p className={styles['soft']}>{words.privacy}</p>
      <p className={styles['soft']}>{words.unofficial}</p>
    </section>
  );
}
