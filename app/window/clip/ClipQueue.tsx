import { Download, Square } from 'lucide-react';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import { ReportFile } from '../../../src/host/contract/shapes.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { percent } from '../../../src/words/library.ts';
import { fileSize } from '../../../src/words/locale.ts';
import { Button } from '../look/Button.tsx';
import { useJobs, useWorkbench } from '../stores/react.ts';
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
  const { host, notices, shell } = useWorkbench();
  const tell = (error: unknown): void => {
    notices.getState().trouble(error);
  };
  const file = job.state === 'done' ? ReportFile.safeParse(job.result).data : undefined;
  if (file) {
    return (
      <>
        <p className={styles['name']}>
          {file.name} <span className={styles['soft']}>{fileSize(file.bytes)}</span>
        </p>
        <Button
          icon={<Download aria-hidden />}
          onClick={() => {
            shell.saveFile(file.mediaId, file.name).then((saved) => {
              if (saved) notices.getState().say(words.saved);
            }, tell);
          }}
        >
          {words.save}
        </Button>
        <p className={styles['soft']}>
          {words.place} {file.path}
        </p>
      </>
    );
  }
  const underWay = job.state === 'waiting' || job.state === 'running';
  return (
    <>
      <p className={styles['name']}>{job.about}</p>
      {underWay && (
        <Button
          kind="quiet"
          icon={<Square aria-hidden />}
          aria-label={words.stopNamed(job.about)}
          onClick={() => {
            host.call('job.cancel', { jobId: job.id }).catch(tell);
          }}
        >
          {words.stop}
        </Button>
      )}
      {underWay && (
        <progress
          className={styles['bar']}
          aria-label={`${words.left} ${job.about}`}
          {...(job.total === null || job.state === 'waiting' ? {} : { value: job.done, max: job.total })}
        />
      )}
      <p className={styles['soft']} role="status">
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
