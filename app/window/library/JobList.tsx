import { useEffect, useRef, useState } from 'react';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import { copyWords } from '../../../src/words/copies.ts';
import { libraryWords, percent } from '../../../src/words/library.ts';
import { JobLine } from '../jobs/JobLine.tsx';
import { Button } from '../look/Button.tsx';
import { useJobs, useWorkbench } from '../stores/react.ts';
import styles from './JobList.module.css';

const words = libraryWords.jobs;
const { line } = copyWords;

/** Long work: what, how far, how long, and a way to stop. Work that failed says why. */
export function JobList() {
  const jobs = useJobs((view) => view.jobs);
  const shown = jobs.filter((job) => job.state !== 'done' && job.state !== 'cancelled');
  if (shown.length === 0) return null;
  return (
    <section className={styles['jobs']}>
      <h2 className={styles['title']}>{words.title}</h2>
      <ul>
        {shown.map((job) => (
          <Job key={job.id} job={job} before={placeOf(job, shown)} />
        ))}
      </ul>
    </section>
  );
}

/** How many of the same work wait before a job; they are listed in their order. */
function placeOf(job: JobReport, all: readonly JobReport[]): number {
  return all.filter((other) => other.name === job.name && other.state === 'waiting').indexOf(job);
}

interface JobProps {
  readonly job: JobReport;
  readonly before: number;
}

function Job({ job, before }: JobProps) {
  const { host, notices } = useWorkbench();
  const left = useTimeLeft(job);
  const { subject } = job;
  const tell = (error: unknown): void => {
    notices.getState().trouble(error);
  };
  const name = words.names[job.name] ?? words.other;
  return (
    <li className={styles['job']}>
      <p>
        {name}: <span className={styles['about']}>{job.about}</span>
      </p>
      {job.state === 'failed' ? (
        <>
          <p className={styles['failed']}>{job.trouble?.message ?? words.failed}</p>
          {job.name === 'clip.workingCopy' && subject !== null && (
            <Button
              aria-label={line.againNamed(job.about)}
              onClick={() => {
                host.start('clip.workingCopy', { clipId: subject }).catch(tell);
              }}
            >
              {line.again}
            </Button>
          )}
        </>
      ) : (
        <JobLine job={job} label={`${name}: ${job.about}`} />
      )}
      {job.state === 'waiting' && (
        <div className={styles['line']}>
          <p className={styles['facts']}>{before > 0 ? line.place(before) : line.next}</p>
          {before > 0 && (
            <Button
              kind="quiet"
              aria-label={line.firstNamed(job.about)}
              onClick={() => {
                host.call('job.first', { jobId: job.id }).catch(tell);
              }}
            >
              {line.first}
            </Button>
          )}
        </div>
      )}
      {job.state === 'running' && job.total !== null && (
        <p className={styles['facts']}>
          {percent(job.done, job.total)}
          {left !== null && `, ${words.left(left)}`}
        </p>
      )}
    </li>
  );
}

/** Too early a guess only jumps about: seconds to watch a job before saying how long it will take. */
const watchBefore = 3;

/** Seconds that a job will still take at the pace seen so far, or null where that cannot be told yet. */
function useTimeLeft(job: JobReport): number | null {
  const first = useRef<{ at: number; done: number } | null>(null);
  const [left, setLeft] = useState<number | null>(null);
  useEffect(() => {
    if (job.state !== 'running' || job.total === null) return;
    const now = performance.now() / 1000;
    first.current ??= { at: now, done: job.done };
    const elapsed = now - first.current.at;
    const made = job.done - first.current.done;
    if (elapsed >= watchBefore && made > 0) setLeft(((job.total - job.done) / made) * elapsed);
  }, [job]);
  return left;
}
