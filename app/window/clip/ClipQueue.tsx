import type { JobReport } from '../../../src/host/contract/calls.ts';
import { ReportFile } from '../../../src/host/contract/shapes.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { percent } from '../../../src/words/library.ts';
import { fileSize } from '../../../src/words/locale.ts';
import { PlaceOf, SaveCopy } from '../handOver/SaveCopy.tsx';
import { JobLine } from '../jobs/JobLine.tsx';
import { useJobs } from '../stores/react.ts';
import styles from './ClipQueue.module.css';

const words = clipWords.job;

/** Clips at rest that are listed: the folder has them all. */
const mostAtRest = 3;

const underWay = ({ state }: JobReport): boolean => state === 'waiting' || state === 'running';

/** Clips that wait, are made, or were made just now: how far, a way to stop, and where the file is. */
export function ClipQueue() {
  const jobs = useJobs((view) => view.jobs).filter((job) => job.name === 'clip.write');
  if (jobs.length === 0) return null;
  const newest = jobs.toReversed();
  const atRest = newest.filter((job) => !underWay(job)).slice(0, mostAtRest);
  return (
    <section className={styles['queue']} aria-label={clipWords.dialog.making}>
      <h3>{clipWords.dialog.making}</h3>
      <ul>
        {[...newest.filter(underWay), ...atRest].map((job) => (
          <li key={job.id} className={styles['job']}>
            <Line job={job} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Line({ job }: { readonly job: JobReport }) {
  const file = job.state === 'done' ? ReportFile.safeParse(job.result).data : undefined;
  if (file) {
    return (
      <>
        <p className={styles['name']}>
          {file.name} <span className={styles['soft']}>{fileSize(file.bytes)}</span>
        </p>
        <SaveCopy file={file} />
        <div className={styles['whole']}>
          <PlaceOf file={file} />
        </div>
      </>
    );
  }
  return (
    <>
      <p className={`${styles['name']} ${styles['whole']}`}>{job.about}</p>
      {underWay(job) && (
        <div className={styles['whole']}>
          <JobLine job={job} label={`${words.left} ${job.about}`} />
        </div>
      )}
      <p className={`${styles['soft']} ${styles['whole']}`} role="status">
        {job.state === 'waiting'
          ? words.waiting
          : job.state === 'running'
            ? job.total
              ? percent(job.done, job.total)
              : ''
            : job.state === 'failed'
              ? (job.trouble?.message ?? '')
              : words.stopped}
      </p>
    </>
  );
}
