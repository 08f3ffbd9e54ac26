import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { copyWords, whyCopied } from '../../../src/words/copies.ts';
import { copyJob } from '../stores/library.ts';
import { useJobs } from '../stores/react.ts';
import styles from './CopyNote.module.css';

/** Over a picture that is shown from the original while its working copy waits or is made: why, and how far. */
export function CopyNote({ clip }: { readonly clip: ClipSummary }) {
  const job = useJobs((view) => copyJob(clip, view.jobs));
  if (clip.copy !== null || clip.state !== 'ready' || !job) return null;
  const percent = job.total ? Math.floor((100 * job.done) / job.total) : null;
  const stand = job.state === 'waiting' ? copyWords.waiting : copyWords.making(percent);
  return (
    <p className={styles['note']} role="status">
      {`${whyCopied(clip.slow)} ${stand}`.trim()}
    </p>
  );
}
