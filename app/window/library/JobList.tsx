import { Square } from 'lucide-react';
import { useEffect, useRef, useState } from 'react';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import { libraryWords, percent } from '../../../src/words/library.ts';
import { Button } from '../look/Button.tsx';
import { useJobs, useWorkbench } from '../stores/react.ts';
import styles from './JobList.module.css';

const words = libraryWords.jobs;

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
          <Job key={job.id} job={job} />
        ))}
      </ul>
    </section>
  );
}

function Job({ job }: { readonly job: JobReport }) {
  const { host, notices } = useWorkbench();
  const left = useTimeLeft(job);
  const name = words.names[job.name] ?? words.other;
  return (
    <li className={styles['job']}>
      <p>
        {name}: <span className={styles['about']}>{job.about}</span>
      </p>
      {job.state === 'failed' ? (
        <p className={styles['failed']}>{job.trouble?.message ?? words.failed}</p>
      ) : (
        <div className={styles['line']}>
          <progress
            className={styles['bar']}
            aria-label={`${name}: ${job.about}`}
            {...(job.total === null || job.state === 'waiting' ? {} : { value: job.done, max: job.total })}
          />
          <Button
            kind="quiet"
            icon={<Square aria-hidden />}
            aria-label={words.stopNamed(job.about)}
            onClick={() => {
              host.call('job.cancel', { jobId: job.id }).catch((error: unknown) => {
                notices.getState().trouble(error);
              });
            }}
          >
            {words.stop}
          </Button>
        </div>
      )}
      {job.state === 'waiting' && <p className={styles['facts']}>{words.waiting}</p>}
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
