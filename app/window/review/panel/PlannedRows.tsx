import { obstacleAt } from '../../../../src/course/course.ts';
import type { PlannedCross } from '../../../../src/plan/plan.ts';
import type { Analysis } from '../../../../src/review/analysis.ts';
import { plannedAgainstHappened } from '../../../../src/review/planned.ts';
import { crossVerdictWords, obstacleName, plannedOutcome } from '../../../../src/words/review.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { crossWords } from '../../../../src/words/trade.ts';
import { usePreferences } from '../../stores/react.ts';
import { useOpenReview } from '../DeskContext.ts';
import styles from './CrossesTab.module.css';

const words = reviewScreenWords.crosses;

/** Every planned cross beside what became of it, and those that nobody planned. Nothing where neither is. */
export function PlannedRows({
  plans,
  analysis,
}: {
  readonly plans: readonly PlannedCross[];
  readonly analysis: Analysis;
}) {
  const { course } = useOpenReview();
  const dialect = usePreferences((p) => p.dialect);
  const { rows, unplanned } = plannedAgainstHappened(plans, analysis);
  const name = (place: number): string => obstacleName(obstacleAt(course, place), dialect);
  if (rows.length === 0) return null;
  return (
    <section>
      <h3 className={styles['small']}>{words.against}</h3>
      <ul>
        {rows.map((row) => (
          <li key={row.planned.id} className={styles['planned']}>
            <span>
              <strong>{row.planned.place}</strong> {crossWords[row.planned.kind]}{' '}
              <span className={styles['soft']}>
                {row.planned.secondChoice
                  ? words.orElse(crossWords[row.planned.secondChoice])
                  : name(row.planned.place)}
              </span>
            </span>
            <span className={styles['verdict']} data-verdict={row.happened?.verdict}>
              {plannedOutcome(row)}
            </span>
          </li>
        ))}
        {unplanned.map((cross) => (
          <li key={cross.id} className={styles['planned']}>
            <span>
              <strong>{cross.place}</strong> {crossWords[cross.kind]}{' '}
              <span className={styles['soft']}>{words.unplanned}</span>
            </span>
            <span className={styles['verdict']} data-verdict={cross.verdict}>
              {crossVerdictWords[cross.verdict]}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
