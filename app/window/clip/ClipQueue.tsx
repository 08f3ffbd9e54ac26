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

/** Clips that wait, are made, or were made just now: how far, a way to stop, and where the file is. */
export function ClipQueue() {
  const jobs = useJobs((view) => view.jobs).filter((job) => job.name === 'clip.write');
  if (jobs.length === 0) return null;
  return (
    <section className={styles['queue']} aria-label={clipWords.dialog.making}>
      <h3>{clipWords.dialog.making}</h3>
      <ul>
        {jobs.toReversed().map((job) => (
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
  const underWay = job.state === 'waiting' || job.state === 'running';
  return (
    <>
      <p className={`${styles['name']} ${styles['whole']}`}>{job.about}</p>
      {underWay && (
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
