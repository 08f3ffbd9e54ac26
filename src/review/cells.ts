import { runTimeAt, type ClipClock } from '../time/bracket.ts';
import { frameAt, lastFrame, ptsAfter, ptsOf } from '../time/frameTable.ts';
import { frameIndex, pts } from '../time/units.ts';
import type { Cut } from './document.ts';

/** A stretch of run time, seconds. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The run time during which a frame is shown. */
export function cellOf(clock: ClipClock, frame: number): Span {
  const index = frameIndex(Math.max(0, Math.min(clock.table.pts.length - 1, frame)));
  return {
    from: runTimeAt(clock, ptsOf(clock.table, index)),
    to: runTimeAt(clock, ptsAfter(clock.table, index)),
  };
}

/** The run time that a clip covers. */
export function clipSpan(clock: ClipClock): Span {
  return { from: cellOf(clock, 0).from, to: cellOf(clock, lastFrame(clock.table)).to };
}

/** First and last frame that a cut leaves, both included; all of the clip where there is none. */
export function framesOfCut(
  clock: ClipClock,
  cut: Cut | undefined,
): { readonly first: number; readonly last: number } {
  const { table } = clock;
  if (!cut) return { first: 0, last: lastFrame(table) };
  // A cut that lies between frames (footage made anew) begins on the first whole frame within it.
  const at = frameAt(table, pts(cut.from));
  const first = (table.pts[at] ?? 0) < cut.from ? Math.min(lastFrame(table), at + 1) : at;
  return { first, last: Math.max(first, frameAt(table, pts(cut.to))) };
}

/** The run time that a cut leaves of a clip. */
export function cutSpan(clock: ClipClock, cut: Cut | undefined): Span {
  const { first, last } = framesOfCut(clock, cut);
  return { from: cellOf(clock, first).from, to: cellOf(clock, last).to };
}

/** Rounding of doubles: a billionth of a second is far below any frame. */
const slack = 1e-9;

/** The frame shown at a run time: the last that starts at or before it; the first or last frame outside the clip. */
export function frameShownAt(clock: ClipClock, at: number): number {
  let low = 0;
  let high = clock.table.pts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (runTimeAt(clock, ptsOf(clock.table, frameIndex(middle))) <= at + slack) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Frames of a clip that lie within a view. Empty (from after to) where there are none. */
export function framesWithin(clock: ClipClock, view: Span): { readonly from: number; readonly to: number } {
  const span = clipSpan(clock);
  if (span.to <= view.from || span.from >= view.to) return { from: 1, to: 0 };
  return { from: frameShownAt(clock, view.from), to: frameShownAt(clock, view.to) };
}
