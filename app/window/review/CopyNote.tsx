import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { copyWords, whyCopied } from '../../../src/words/copies.ts';
import { Key } from '../keys/Key.tsx';
import { copyJob } from '../stores/library.ts';
import { useJobs } from '../stores/react.ts';
import styles from './CopyNote.module.css';

/** Over a picture that is shown from the original while its working copy waits or is made: why, and how far. */
export function CopyNote({ clip }: { readonly clip: ClipSummary }) {
  const job = useJobs((view) => copyJob(clip, view.jobs));
  const reason = whyCopied(clip.slow);
  if (clip.copy !== null || clip.state !== 'ready') return null;
  if (job) {
    const percent = job.total ? Math.floor((100 * job.done) / job.total) : null;
    const stand = job.state === 'waiting' ? copyWords.waiting : copyWords.making(percent);
    return <Note text={`${reason} ${stand}`.trim()} />;
  }
  if (reason === '') return null;
  return (
    <Note text={reason}>
      {copyWords.make} <Key act="review.copy" />
    </Note>
  );
}

function Note({ text, children }: { readonly text: string; readonly children?: React.ReactNode }) {
  return (
    <div className={styles['note']} role="status">
      <span>{text}</span>
      {children && <span className={styles['act']}>{children}</span>}
    </div>
  );
}
