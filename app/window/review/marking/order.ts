import type { Mark } from '../../../../src/review/marks.ts';
import type { Clocks } from '../../../../src/review/moments.ts';
import { runTimeAt } from '../../../../src/time/bracket.ts';
import { frameAt } from '../../../../src/time/frameTable.ts';
import { pts } from '../../../../src/time/units.ts';

/** A mark with the run time at which its frame starts. */
export interface Timed<M extends Mark = Mark> {
  readonly mark: M;
  readonly at: number;
  readonly frame: number;
}

/** Places one mark; null where its footage has no clock. */
export function timedMark<M extends Mark>(mark: M, clocks: Clocks): Timed<M> | null {
  const clock = clocks.get(mark.footageId);
  if (!clock) return null;
  const at = pts(mark.pts);
  return { mark, at: runTimeAt(clock, at), frame: frameAt(clock.table, at) };
}

/** Marks in the order of the run; those on one frame in the order they were made. Marks without a clock are left out. */
export function inOrder(marks: readonly Mark[], clocks: Clocks): Timed[] {
  return marks.flatMap((m) => timedMark(m, clocks) ?? []).sort((a, b) => a.at - b.at);
}

/**
 * The mark before or after: counted from the selected one while the playhead stands on it (several marks may share
 * a frame), else from the playhead. Null at either end.
 */
export function neighbour(
  ordered: readonly Timed[],
  now: number,
  selected: string | null,
  step: -1 | 1,
): Timed | null {
  const here = ordered.findIndex((t) => t.mark.id === selected);
  const current = ordered[here];
  if (current && current.at === now) return ordered[here + step] ?? null;
  return step > 0 ? (ordered.find((t) => t.at > now) ?? null) : (ordered.findLast((t) => t.at < now) ?? null);
}
