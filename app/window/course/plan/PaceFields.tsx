import { Pace } from '../../../../src/plan/plan.ts';
import { assumedPace, paceOf } from '../../../../src/plan/pace.ts';
import { withInUse } from '../../../../src/plan/sheets.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { Button } from '../../look/Button.tsx';
import { KeptField } from '../../look/Field.tsx';
import { useWorkbench } from '../../stores/react.ts';
import { useCourse } from '../useCourse.ts';
import styles from './PlanPage.module.css';

const words = planPageWords.spare;
const figures = ['topSpeed', 'pickUp', 'turnSeconds'] as const;

/** How the handler moves: assumed until she says. */
export function PaceFields() {
  const { notices } = useWorkbench();
  const { state, changePlan } = useCourse();
  const known = state.plan.pace;
  const pace = paceOf(known);
  const keep = (name: (typeof figures)[number], text: string): void => {
    const { topSpeed, pickUp, turnSeconds } = pace;
    const next = Pace.safeParse({
      topSpeed,
      pickUp,
      turnSeconds,
      [name]: Number(text.trim().replace(',', '.') || NaN),
    });
    if (!next.success) {
      const { least, most } = bounds[name];
      notices.getState().say(words.paceBad(least, most));
      return;
    }
    changePlan(words.paceLabel, (p) => withInUse(p, (s) => ({ ...s, pace: next.data })));
  };
  return (
    <section className={styles['part']}>
      <h2>{words.pace}</h2>
      <div className={styles['fields']}>
        {figures.map((name) => (
          <KeptField
            key={name}
            label={words[name]}
            inputMode="decimal"
            value={String(pace[name])}
            hint={known ? undefined : words.assumedOf(assumedPace[name].usual)}
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

/** What the schema of a plan allows. */
const bounds = {
  topSpeed: { least: 0.5, most: 12 },
  pickUp: { least: 0.2, most: 15 },
  turnSeconds: { least: 0, most: 5 },
} as const;
