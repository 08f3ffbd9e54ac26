import type { MeasuredLine } from '../../../src/review/compare/measuredLine.ts';
import type { SideBySide } from '../../../src/review/compare/sideBySide.ts';
import { compareWords } from '../../../src/words/compare.ts';
import type { CourseTime } from './courseTime.ts';
import styles from './Details.module.css';
import { LinesMap } from './LinesMap.tsx';
import { StretchTable } from './StretchTable.tsx';
import type { ComparedRun } from './useRuns.ts';
import { Whole } from './Whole.tsx';

export interface DetailsProps {
  readonly runs: readonly ComparedRun[];
  readonly side: SideBySide;
  readonly measured: readonly (MeasuredLine | null)[] | null;
  readonly course: CourseTime;
  /** The run whose difference to the first is taken apart. */
  readonly parts: number;
  readonly onParts: (run: number) => void;
}

/** The figures: stretch by stretch, the run as a whole, and the course with the lines on it. */
export function Details(props: DetailsProps) {
  return (
    <div className={styles['details']}>
      <StretchTable {...props} />
      <div className={styles['aside']} tabIndex={0} role="group" aria-label={compareWords.summary.title}>
        <Whole {...props} />
        <LinesMap {...props} />
      </div>
    </div>
  );
}
