import type { LineWish } from '../line/line.ts';
import type { Runner } from '../line/runner.ts';
import type { PlanSheet } from './plan.ts';

/** What a plan asks of a line. */
export function wishOf(sheet: Pick<PlanSheet, 'wait' | 'landings'>, runner: Runner): LineWish {
  return {
    runner,
    ...(sheet.wait ? { start: sheet.wait } : {}),
    ...(sheet.landings && sheet.landings.length > 0
      ? { landings: new Map(sheet.landings.map((l) => [l.number, l.at])) }
      : {}),
  };
}
