import { useStore } from 'zustand';
import type { PlanSheet, Side } from '../../../../src/plan/plan.ts';
import { sideAlong, sidesOf, type SideFinding } from '../../../../src/plan/sides.ts';
import { withInUse } from '../../../../src/plan/sheets.ts';
import { spotFindings } from '../../../../src/plan/spots.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import { sideSentence, spotSentence } from '../../../../src/words/plan.ts';
import { useLines } from '../lines/LinesContext.ts';
import { useCourse } from '../useCourse.ts';
import styles from './PlanPage.module.css';

const words = planPageWords.sides;

/** On which side the dog is at each stretch: as stated, as the crosses give, and where both disagree. */
export function Sides() {
  const { changePlan } = useCourse();
  const { desk } = useLines();
  const { course, sheet, line } = useStore(desk, (v) => v);
  const numbers = course.steps.reduce((most, step) => Math.max(most, step.number), 0);
  const [a, b] = [line?.stretches[0]?.points[0], line?.steps[0]?.entry];
  const atStart = sheet.leadOut && a && b ? sideAlong(sheet.leadOut, a, b) : null;
  const { stretches, findings } = sidesOf(sheet, numbers, atStart);
  const clashes = new Set(findings.flatMap(clashAfter));
  const turn = (after: number): void => {
    changePlan(words.label(after), (p) => withInUse(p, (s) => withSide(s, after)));
  };
  const spots = course.obstacles.some((o) => o.stand) ? spotFindings(sheet, course) : [];
  if (numbers === 0) return null;
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      <div className={styles['sides']} role="group" aria-label={words.title}>
        {stretches.slice(0, numbers).map(({ after, side, stated }) => (
          <button
            key={after}
            type="button"
            className={styles['side']}
            data-stated={stated}
            data-clash={clashes.has(after)}
            aria-label={`${words.after(after)}: ${
              side === null ? words.followsNone : stated ? words.names[side] : words.follows(side)
            }`}
            onClick={() => {
              turn(after);
            }}
          >
            <span aria-hidden>{words.between(after)}</span>
            <span aria-hidden>{side === null ? '·' : words.short[side]}</span>
          </button>
        ))}
      </div>
      <ul className={styles['list']}>
        {findings.map((f, i) => (
          <li key={i}>{sideSentence(f)}</li>
        ))}
        {spots.map((f, i) => (
          <li key={`spot ${String(i)}`}>{spotSentence(f)}</li>
        ))}
      </ul>
      {findings.length === 0 && (
        <p className={styles['small']}>
          {stretches.some((s) => s.side !== null) ? words.agree : words.first}
        </p>
      )}
    </section>
  );
}

/** Not said, left, right, not said again. */
function withSide(sheet: PlanSheet, after: number): PlanSheet {
  const now = sheet.sides.find((s) => s.after === after)?.side;
  const next: Side | null = now === undefined ? 'left' : now === 'left' ? 'right' : null;
  const rest = sheet.sides.filter((s) => s.after !== after);
  return {
    ...sheet,
    sides: next ? [...rest, { after, side: next }].sort((x, y) => x.after - y.after) : rest,
  };
}

function clashAfter(f: SideFinding): readonly number[] {
  switch (f.finding) {
    case 'disagrees':
    case 'statedTwice':
      return [f.after];
    case 'leadOut':
      return [0];
    case 'undone':
    case 'choicesDiffer':
      return [f.place];
    case 'gone':
      return [];
  }
}
