import { toCapture, type SpeedMap } from './captureClock.ts';
import { frameAt, frameStartingAt, ptsAfter, ptsBefore, type FrameTable } from './frameTable.ts';
import { ticksToSeconds } from './timeBase.ts';
import { frameIndex, runSeconds, type Pts, type RunSeconds } from './units.ts';

/** An interval of run time that holds an event for certain. Its value is the middle. */
export interface Bracket {
  readonly from: RunSeconds;
  readonly to: RunSeconds;
}

/**
 * What the frame shows. `first`: the first frame on which it can be seen, so it happened in (previous, this].
 * `last`: the last frame on which it still holds, so it ended in [this, next).
 */
export type Seen = 'first' | 'last';

/** How a clip's frames lie on the clock of the run. */
export interface ClipClock {
  readonly table: FrameTable;
  readonly speed: SpeedMap;
  /** Run time at capture time 0, seconds. */
  readonly offset: number;
  /** Run seconds per capture second: 1 unless two recorders' clocks drift apart. */
  readonly rate: number;
}

/** Run time of a presentation time on this clip. */
export function runTimeAt(clock: ClipClock, at: Pts): RunSeconds {
  const capture = toCapture(clock.speed, ticksToSeconds(clock.table.timeBase, at));
  return runSeconds(clock.offset + capture * clock.rate);
}

/**
 * The bracket of a mark, in run time.
 * @param unsure frames by which the coach may be off, either way; each widens the bracket by the frames that are there.
 * A mark between frames (footage re-made since) counts for the frame shown at that time, widened to the next.
 */
export function bracketOf(clock: ClipClock, at: Pts, seen: Seen, unsure = 0): Bracket {
  if (!Number.isSafeInteger(unsure) || unsure < 0)
    throw new RangeError(`${unsure} frames cannot be "unsure"`);
  const exact = frameStartingAt(clock.table, at);
  const here = exact ?? frameAt(clock.table, at);
  const extra = exact === undefined ? unsure + 1 : unsure;
  const last = clock.table.pts.length - 1;
  const earliest = frameIndex(Math.max(0, here - extra));
  const latest = frameIndex(Math.min(last, here + extra));
  const low = seen === 'first' ? ptsBefore(clock.table, earliest) : clock.table.pts[earliest];
  const high = seen === 'first' ? clock.table.pts[latest] : ptsAfter(clock.table, latest);
  return { from: runTimeAt(clock, low ?? at), to: runTimeAt(clock, high ?? at) };
}

/** The middle of a bracket. */
export function middle(b: Bracket): RunSeconds {
  return runSeconds((b.from + b.to) / 2);
}

/** The smallest bracket that holds both. */
export function hull(a: Bracket, b: Bracket): Bracket {
  return { from: runSeconds(Math.min(a.from, b.from)), to: runSeconds(Math.max(a.to, b.to)) };
}
