import { useStore } from 'zustand';
import { obstacleAt } from '../../../../src/course/course.ts';
import { crossArguments } from '../../../../src/plan/crossArguments.ts';
import type { CrossTime, PlanTimes } from '../../../../src/plan/spare.ts';
import { argumentSentence } from '../../../../src/words/crossArguments.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { spareSentence, supportLate } from '../../../../src/words/plan.ts';
import { crossWords } from '../../../../src/words/trade.ts';
import { usePreferences } from '../../stores/react.ts';
import { useBoard } from '../BoardContext.ts';
import { useLines } from '../lines/LinesContext.ts';
import styles from './PlanPage.module.css';

const words = planPageWords.spare;

interface SpareProps {
  readonly times: PlanTimes | null;
  readonly selected: number | null;
  readonly onSelect: (place: number) => void;
}

/** Time to spare at each cross, of its second choice too, with what it follows from. */
export function Spare({ times, selected, onSelect }: SpareProps) {
  const { desk } = useLines();
  const unit = useBoard().desk.unit();
  const course = useStore(desk, (v) => v.course);
  const known = useStore(desk, (v) => v.sheet.pace !== undefined);
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      {times === null && <p className={styles['soft']}>{words.noLine}</p>}
      {times?.crosses.length === 0 && <p className={styles['soft']}>{words.none}</p>}
      <ul className={styles['list']}>
        {times?.crosses.map((t) => (
          <li key={`${t.cross.id} ${t.choice}`}>
            <button
              type="button"
              className={styles['told']}
              aria-pressed={t.cross.place === selected}
              onClick={() => {
                onSelect(t.cross.place);
              }}
            >
              <span className={`${styles['price']} ${styles[toneOf(t)]}`}>{words.seconds(t.spare)}</span>
              <span>
                {t.choice === 'second' && <span className={styles['soft']}>{words.else} </span>}
                {words.at(crossWords[t.kind], t.cross.place)}
              </span>
            </button>
            {t.cross.place === selected && (
              <>
                <p className={styles['small']}>
                  {spareSentence(t, obstacleAt(course, t.cross.place)?.kind ?? 'unknown', unit)}
                </p>
                <Arguments time={t} />
              </>
            )}
          </li>
        ))}
        {times?.stays.map(({ does }) =>
          does.what === 'support' && does.late > 0.05 ? (
            <li key={does.support.id} className={styles['late']}>
              {supportLate(does.support.place, does.late)}
            </li>
          ) : null,
        )}
      </ul>
      {(times?.crosses.length ?? 0) > 0 && !known && <p className={styles['small']}>{words.assumed}</p>}
    </section>
  );
}

/** What the course and the dog's skills say for and against a cross. */
function Arguments({ time }: { readonly time: CrossTime }) {
  const { desk, of } = useLines();
  const board = useBoard();
  const { course, line } = useStore(desk, (v) => v);
  const dialect = usePreferences((p) => p.dialect);
  const thresholds = usePreferences((p) => p.reading);
  const told = { course, unit: board.desk.unit(), dialect };
  const found = line ? crossArguments(time, { course, line, thresholds, ...of() }) : [];
  return found.map((argument) => (
    <p key={argument.argues} className={styles['small']}>
      {argumentSentence(argument, told)}
    </p>
  ));
}

/** Below this there is hardly any time, seconds: about one stride. */
const hardly = 0.3;

const toneOf = ({ spare }: CrossTime): 'late' | 'tight' | 'inTime' =>
  spare < 0 ? 'late' : spare < hardly ? 'tight' : 'inTime';
