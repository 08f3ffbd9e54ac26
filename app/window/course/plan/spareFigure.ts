import type { PlanTimes } from '../../../../src/plan/spare.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import type { SheetFacts } from './sheetFacts.ts';

/** What tells a plan from others: the least time to spare over the first choices of its crosses. */
export function spareFigure(times: PlanTimes | null): SheetFacts | null {
  const spares = times?.crosses.filter((c) => c.choice === 'first').map((c) => c.spare) ?? [];
  if (spares.length === 0) return null;
  const least = Math.min(...spares);
  return { least: planPageWords.spare.seconds(least), late: least < 0 };
}
