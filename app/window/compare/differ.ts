import { coursesApart } from '../../../src/review/compare/remarks.ts';
import type { ComparedRun } from './useRuns.ts';

/** Whether these runs cannot be matched by obstacle. */
export const differ = (runs: readonly ComparedRun[]): boolean =>
  coursesApart(runs.map((r) => r.state.course)).some((other) => other !== null);
