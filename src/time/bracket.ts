import { drift, toCapture, type SpeedMap } from './captureClock.ts';
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
  /** Only where the capture speed of the clip is not exact. */
  readonly drift?: Drift;
}

/**
 * What a capture speed that is not exact does to run times, besides the frames. A wrong speed is wrong for a whole
 * stretch, so it widens differences of times, not each time by itself: see timeBetween.
 */
export interface Drift {
  /** The speed map of the clip, by identity: two times with one map share its error. */
  readonly of: SpeedMap;
  /** How far the ends may be off against the beginning of the clip's clock, run seconds; rising within a clip. */
  readonly from: number;
  readonly to: number;
  /** How far any two times of the clip may be off against each other, run seconds. */
  readonly most: number;
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
  const bracket = {
    from: runTimeAt(clock, edgeOf(clock.table, span.from)),
    to: runTimeAt(clock, edgeOf(clock.table, span.to)),
    ...(clock.angle ? { angle: clock.angle } : {}),
  };
  const loose = driftOver(clock, span);
  return loose ? { ...bracket, drift: loose } : bracket;
}

function edgeOf(table: FrameTable, index: number): Pts {
  if (index < 0) return ptsBefore(table, frameIndex(0));
  if (index >= table.pts.length) return ptsAfter(table, lastFrame(table));
  return ptsOf(table, frameIndex(index));
}

/** What the clip's uncertain speed does to times on these frames; undefined where the speed is exact. */
function driftOver(clock: ClipClock, span: FrameSpan): Drift | undefined {
  if (clock.speed.every((piece) => !piece.plusMinus)) return undefined;
  const { table, speed, rate } = clock;
  const off = (index: number): number =>
    drift(speed, ticksToSeconds(table.timeBase, edgeOf(table, index))) * rate;
  return { of: speed, from: off(span.from), to: off(span.to), most: off(table.pts.length) - off(-1) };
}

/** By how much the time from `a` to `b` may be off because capture speeds are not exact, seconds. */
export function driftBetween(a: Bracket, b: Bracket): number {
  if (a.drift && b.drift && a.drift.of === b.drift.of) {
    return Math.max(Math.abs(b.drift.to - a.drift.from), Math.abs(a.drift.to - b.drift.from));
  }
  // Where two clips were lined up is not known here: anywhere within them is allowed for.
  return (a.drift?.most ?? 0) + (b.drift?.most ?? 0);
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
  return brackets.map(({ from, to, angle, drift: loose }) => {
    const by = (angle?.plusMinus ?? 0) + (roots.size > 1 ? (angle?.length ?? 0) : 0);
    return { from: runSeconds(from - by), to: runSeconds(to + by), ...(loose ? { drift: loose } : {}) };
  });
}

/** The bracket with one end moved out by so many seconds: the lower end where `by` is below 0, else the upper. */
export function widened(b: Bracket, by: number): Bracket {
  const end = by < 0 ? 'from' : 'to';
  const wider = { ...b, [end]: runSeconds(b[end] + by) };
  if (!b.drift) return wider;
  const loosest = Math.max(...b.drift.of.map((piece) => (piece.plusMinus ?? 0) / piece.speed));
  return { ...wider, drift: { ...b.drift, [end]: b.drift[end] + by * loosest } };
}

/** The smallest bracket that holds both. */
export function hull(a: Bracket, b: Bracket): Bracket {
  return joined(a.from < b.from ? a : b, a.to > b.to ? a : b);
}

/** The bracket of the first of several events: no earlier than the earliest could be, no later than any must be. */
export function earliest(brackets: readonly Bracket[]): Bracket | null {
  const [first, ...rest] = onOneClock(brackets);
  if (!first) return null;
  const least = (end: 'from' | 'to'): Bracket => rest.reduce((a, b) => (b[end] < a[end] ? b : a), first);
  return joined(least('from'), least('to'));
}

function joined(low: Bracket, high: Bracket): Bracket {
  const oneClip = low.angle && low.angle.id === high.angle?.id ? { angle: low.angle } : {};
  const ends = { from: low.from, to: high.to, ...oneClip };
  const [a, b] = [low.drift, high.drift];
  if (!a && !b) return ends;
  if (a && b && a.of === b.of) return { ...ends, drift: { of: a.of, from: a.from, to: b.to, most: a.most } };
  // Ends from two clips: the error is shared with nothing, and both may be off.
  const most = (a?.most ?? 0) + (b?.most ?? 0);
  return { ...ends, drift: { of: [], from: 0, to: most, most } };
}
