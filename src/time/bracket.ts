import { toCapture, type SpeedMap } from './captureClock.ts';
import {
  frameAt,
  frameStartingAt,
  lastFrame,
  ptsAfter,
  ptsBefore,
  ptsOf,
  type FrameTable,
} from './frameTable.ts';
import { ticksToSeconds } from './timeBase.ts';
import { frameIndex, runSeconds, type Pts, type RunSeconds } from './units.ts';

/**
 * Which of several clips of one run something was seen on, and how well that clip lies on the common clock. Within
 * one clip its line-up does not matter; between two clips both do.
 */
export interface Angle {
  /** The footage. */
  readonly id: string;
  /** The clip whose clock it was brought onto. Clips of two different roots were never lined up. */
  readonly root: string;
  /** It lies within this many seconds of where it was put on its root's clock. */
  readonly plusMinus: number;
  /** Length of the clip, run seconds: all that is known about clips that were never lined up. */
  readonly length: number;
}

/** An interval of run time that holds an event for certain. Its value is the middle. */
export interface Bracket {
  readonly from: RunSeconds;
  readonly to: RunSeconds;
  /** The clip it was seen on; absent where there is one clip only, or where it holds for all. */
  readonly angle?: Angle;
}

/**
 * What the frame shows. `first`: the first frame on which it can be seen, so it happened in (previous, this].
 * `last`: the last frame on which it still holds, so it ended in [this, next). `either`: which of the two is not
 * known (an obstacle of unknown kind), so both are allowed.
 */
export type Seen = 'first' | 'last' | 'either';

/** How a clip's frames lie on the clock of the run. */
export interface ClipClock {
  readonly table: FrameTable;
  readonly speed: SpeedMap;
  /** Run time at capture time 0, seconds. */
  readonly offset: number;
  /** Run seconds per capture second: 1 unless two recorders' clocks drift apart. */
  readonly rate: number;
  /** Its line-up, where the review has several clips. */
  readonly angle?: Angle;
}

/** Run time of a presentation time on this clip. */
export function runTimeAt(clock: ClipClock, at: Pts): RunSeconds {
  const capture = toCapture(clock.speed, ticksToSeconds(clock.table.timeBase, at));
  return runSeconds(clock.offset + capture * clock.rate);
}

/** An interval counted in frames of one clip; its ends may lie one frame before the first or after the last. */
export interface FrameSpan {
  readonly from: number;
  readonly to: number;
}

/**
 * The frames between which a marked event lies.
 * @param unsure frames by which the coach may be off, either way; they widen the span as far as there are frames.
 * A mark between frames (footage re-made since) counts for the frame shown at that time, one frame less sure.
 */
export function frameSpanOf(table: FrameTable, at: Pts, seen: Seen, unsure = 0): FrameSpan {
  if (!Number.isSafeInteger(unsure) || unsure < 0)
    throw new RangeError(`${unsure} frames cannot be "unsure"`);
  const exact = frameStartingAt(table, at);
  const here = exact ?? frameAt(table, at);
  const extra = exact === undefined ? unsure + 1 : unsure;
  const earliest = Math.max(0, here - extra);
  const latest = Math.min(table.pts.length - 1, here + extra);
  return {
    from: seen === 'last' ? earliest : earliest - 1,
    to: seen === 'first' ? latest : latest + 1,
  };
}

/** The bracket of a mark, in run time. Arguments as for frameSpanOf. */
export function bracketOf(clock: ClipClock, at: Pts, seen: Seen, unsure = 0): Bracket {
  const span = frameSpanOf(clock.table, at, seen, unsure);
  return {
    from: runTimeAt(clock, edgeOf(clock.table, span.from)),
    to: runTimeAt(clock, edgeOf(clock.table, span.to)),
    ...(clock.angle ? { angle: clock.angle } : {}),
  };
}

function edgeOf(table: FrameTable, index: number): Pts {
  if (index < 0) return ptsBefore(table, frameIndex(0));
  if (index >= table.pts.length) return ptsAfter(table, lastFrame(table));
  return ptsOf(table, frameIndex(index));
}

/** The middle of a bracket. */
export function middle(b: Bracket): RunSeconds {
  return runSeconds((b.from + b.to) / 2);
}

/**
 * Seconds by which the clocks of two brackets may be apart: nothing within one clip, the line-ups of both where they
 * share a root, and the length of both clips where they were never lined up.
 */
export function apart(a: Bracket, b: Bracket): number {
  if (a.angle?.id === b.angle?.id) return 0;
  if (a.angle && b.angle && a.angle.root !== b.angle.root) return a.angle.length + b.angle.length;
  return (a.angle?.plusMinus ?? 0) + (b.angle?.plusMinus ?? 0);
}

/** Brackets that may be compared end by end: as they are within one clip, else each widened by its line-up. */
export function onOneClock(brackets: readonly Bracket[]): readonly Bracket[] {
  const roots = new Set(brackets.map((b) => b.angle?.root));
  if (new Set(brackets.map((b) => b.angle?.id)).size < 2) return brackets;
  return brackets.map(({ from, to, angle }) => {
    const by = (angle?.plusMinus ?? 0) + (roots.size > 1 ? (angle?.length ?? 0) : 0);
    return { from: runSeconds(from - by), to: runSeconds(to + by) };
  });
}

/** The smallest bracket that holds both. */
export function hull(a: Bracket, b: Bracket): Bracket {
  return { from: runSeconds(Math.min(a.from, b.from)), to: runSeconds(Math.max(a.to, b.to)) };
}
