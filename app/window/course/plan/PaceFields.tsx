import { assumedPace, paceOf } from '../../../../src/plan/pace.ts';
import { withInUse } from '../../../../src/plan/sheets.ts';
import {
  notAPace,
  paceLabel,
  paceShown,
  typedPace,
  type PaceFigure,
} from '../../../../src/words/handlerPace.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField } from '../../look/Field.tsx';
import { useWorkbench } from '../../stores/react.ts';
import { useBoard } from '../BoardContext.ts';
import { useCourse } from '../useCourse.ts';
import styles from './PlanPage.module.css';

const words = planPageWords.spare;
const figures = ['topSpeed', 'pickUp', 'turnSeconds'] as const;

/** How the handler moves: assumed until she says. */
export function PaceFields() {
  const { notices } = useWorkbench();
  const unit = useBoard().desk.unit();
  const { state, changePlan } = useCourse();
  const known = state.plan.pace;
  const pace = paceOf(known);
  const keep = (name: PaceFigure, text: string): void => {
    const typed = typedPace(name, text, unit);
    if (typed === null || typed === undefined) {
      notices.getState().say(notAPace(name, unit));
      return;
    }
    const { topSpeed, pickUp, turnSeconds } = pace;
    const next = { topSpeed, pickUp, turnSeconds, [name]: typed };
    changePlan(words.paceLabel, (p) => withInUse(p, (s) => ({ ...s, pace: next })));
  };
  return (
    <section className={styles['part']}>
      <h2>{words.pace}</h2>
      <div className={styles['fields']}>
        {figures.map((name) => (
          <KeptField
            key={name}
            label={paceLabel(name, unit)}
            inputMode="decimal"
            value={paceShown(name, pace[name], unit)}
            hint={known ? undefined : words.assumedOf(paceShown(name, assumedPace[name].usual, unit))}
            onKeep={(text) => {
              keep(name, text);
            }}
          />
        ))}
      </div>
      {known && (
        <div>
          <Button
            kind="quiet"
            onClick={() => {
              changePlan(words.paceLabel, (p) => withInUse(p, ({ pace: _, ...s }) => s));
            }}
          >
            {words.paceAssumed}
          </Button>
        </div>
      )}
    </section>
  );
}
