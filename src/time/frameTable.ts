import { ticksToSeconds, timeBase, type TimeBase } from './timeBase.ts';
import { frameIndex, mediaSeconds, pts, type FrameIndex, type MediaSeconds, type Pts } from './units.ts';

/**
 * Every frame of a video in presentation order: its integer presentation time (ISO/IEC 14496-12) and the time
 * base of the stream. The only source of frame times: a declared rate is never used.
 */
export interface FrameTable {
  readonly timeBase: TimeBase;
  /** Strictly increasing, at least one entry. */
  readonly pts: readonly Pts[];
}

/**
 * Checks and brands a list of presentation times.
 * Throws a RangeError that names the first bad frame: no frame, not a whole number, or not later than the one before.
 */
export function frameTable(base: TimeBase, ticks: readonly number[]): FrameTable {
  if (ticks.length === 0) throw new RangeError('This video has no frame');
  const list = ticks.map((t) => pts(t));
  for (let i = 1; i < list.length; i++) {
    const before = list[i - 1];
    const here = list[i];
    if (before === undefined || here === undefined || here <= before) {
      throw new RangeError(`Frame ${i} does not come after frame ${i - 1} (${here} after ${before} ticks)`);
    }
  }
  return { timeBase: timeBase(base.num, base.den), pts: list };
}

/** Index of the last frame. */
export function lastFrame(table: FrameTable): FrameIndex {
  return frameIndex(table.pts.length - 1);
}

/** Presentation time of a frame. Throws a RangeError outside the table. */
export function ptsOf(table: FrameTable, index: FrameIndex): Pts {
  const at = table.pts[index];
  if (at === undefined)
    throw new RangeError(`There is no frame ${index}: this video has ${table.pts.length}`);
  return at;
}

/** Index of the frame shown at `at`: the last frame that starts at or before it; the first frame if there is none. */
export function frameAt(table: FrameTable, at: Pts): FrameIndex {
  let low = 0;
  let high = table.pts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((table.pts[middle] ?? Infinity) <= at) low = middle;
    else high = middle - 1;
  }
  return frameIndex(low);
}

/** Index of the frame that starts exactly at `at`, or undefined where no frame does. */
export function frameStartingAt(table: FrameTable, at: Pts): FrameIndex | undefined {
  const index = frameAt(table, at);
  return table.pts[index] === at ? index : undefined;
}

/** Index of the frame shown at a media time, as a player would show it. Half a tick of slack absorbs rounding. */
export function frameAtSeconds(table: FrameTable, time: MediaSeconds): FrameIndex {
  const ticks = Math.floor((time * table.timeBase.den) / table.timeBase.num + 0.5);
  return frameAt(table, pts(Math.max(-Number.MAX_SAFE_INTEGER, Math.min(Number.MAX_SAFE_INTEGER, ticks))));
}

/** Media time at which a frame starts. */
export function frameSeconds(table: FrameTable, index: FrameIndex): MediaSeconds {
  return ticksToSeconds(table.timeBase, ptsOf(table, index));
}

/**
 * Presentation time of the frame before `index`. Before the first frame nothing was filmed: the gap to the
 * frame after stands in, so that a mark on the first frame still has a bracket.
 */
export function ptsBefore(table: FrameTable, index: FrameIndex): Pts {
  if (index > 0) return ptsOf(table, frameIndex(index - 1));
  return pts(ptsOf(table, index) - gapAt(table, 0));
}

/** Presentation time of the frame after `index`; past the last frame the last gap stands in (see ptsBefore). */
export function ptsAfter(table: FrameTable, index: FrameIndex): Pts {
  if (index < table.pts.length - 1) return ptsOf(table, frameIndex(index + 1));
  return pts(ptsOf(table, index) + gapAt(table, table.pts.length - 2));
}

/** Media time half-way through a frame: the safe place to ask a player for it. */
export function middleOfFrame(table: FrameTable, index: FrameIndex): MediaSeconds {
  return mediaSeconds(
    (frameSeconds(table, index) + ticksToSeconds(table.timeBase, ptsAfter(table, index))) / 2,
  );
}

function gapAt(table: FrameTable, left: number): number {
  const a = table.pts[left];
  const b = table.pts[left + 1];
  // A single frame has no gap at all; one second is wide enough that no verdict can be drawn from it.
  if (a === undefined || b === undefined) return Math.ceil(table.timeBase.den / table.timeBase.num);
  return b - a;
}
