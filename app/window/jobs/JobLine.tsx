import { Square } from 'lucide-react';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import { libraryWords } from '../../../src/words/library.ts';
import { Button } from '../look/Button.tsx';
import { useWorkbench } from '../stores/react.ts';
import styles from './JobLine.module.css';

const words = libraryWords.jobs;

interface JobLineProps {
  readonly job: JobReport;
  /** What is being done, for those who do not see the bar. */
  readonly label: string;
}

/** How far work is that waits or is under way, and a way to stop it. */
export function JobLine({ job, label }: JobLineProps) {
  const { host, notices } = useWorkbench();
  const known = job.state !== 'waiting' && job.total ? { value: job.done, max: job.total } : {};
  return (
    <div className={styles['line']}>
      <progress className={styles['bar']} aria-label={label} {...known} />
      <Button
        kind="quiet"
        icon={<Square aria-hidden fill="currentColor" />}
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
  );
}
