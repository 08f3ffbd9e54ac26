import type { FootageUse } from '../../../src/review/document.ts';
import type { ComparedRun } from './useRuns.ts';

/** The clip that a run shows: that of its first obstacle, or another one where other clips were asked for so often. */
export function laneUse(
  { state, clocks, analysis }: ComparedRun,
  turn: number,
): { readonly use: FootageUse | undefined; readonly at: number; readonly of: number } {
  const clocked = state.footage.filter((use) => clocks.has(use.id));
  const uses = clocked.length > 0 ? clocked : state.footage;
  const begin = Math.max(
    0,
    uses.findIndex((use) => use.id === analysis.taken[0]?.out?.footageId),
  );
  const at = uses.length > 0 ? (begin + turn) % uses.length : 0;
  return { use: uses[at], at, of: uses.length };
}
