import styles from './Empty.module.css';

/** What stands on an empty page: what belongs here, and the next step. */
export function Empty({
  title,
  text,
  children,
}: {
  readonly title: string;
  readonly text?: string;
  readonly children?: React.ReactNode;
}) {
  return (
    <div className={styles['empty']}>
      <p className={styles['title']}>{title}</p>
      {text !== undefined && <p className={styles['text']}>{text}</p>}
      {children}
    </div>
  );
}
