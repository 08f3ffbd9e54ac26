import { frameSeconds, type FrameTable } from './frameTable.ts';
import type { SpeedMap } from './captureClock.ts';
import { frameIndex } from './units.ts';

/** Frames that come at one rate: from frame `from` on, up to the frame where the next stretch begins. */
export interface RateStretch {
  readonly from: number;
  /** Frames a second of the file. */
  readonly rate: number;
  /** How many frames it goes on for. */
  readonly frames: number;
}

/** Gaps this much apart are one rate: recorders are a little early and late. */
const same = 0.15;
/** A stretch shorter than this is a step on the way from one rate to another, not a rate to go by. Frames. */
const steady = 8;
/** Rates further apart than this are a change of pace, not the shaking of a recorder. */
const jump = 1.8;
/** More changes than this in one clip are no slow motion: the recorder's frames are just uneven. */
const mostStretches = 200;

/**
 * The rates at which the frames of a clip come, stretch by stretch. A lone gap (frames that were dropped) does not end a
 * stretch. One entry where the rate is steady throughout; none where there is one frame only.
 */
export function rateStretches(table: FrameTable): RateStretch[] {
  const times = table.pts.map((_, i) => frameSeconds(table, frameIndex(i)));
  const gaps = times.slice(1).map((t, i) => t - (times[i] ?? t));
  const calm = gaps.map((_, i) => medianAround(gaps, i));
  const starts: number[] = [];
  let sum = 0;
  let count = 0;
  calm.forEach((gap, i) => {
    if (count > 0 && Math.abs(Math.log((gap * count) / sum)) <= same) {
      sum += gap;
      count++;
      return;
    }
    starts.push(i);
    sum = gap;
    count = 1;
  });
  const found = starts.map((from, i) => ({ from, to: starts[i + 1] ?? gaps.length }));
  return withTurns(found, gaps).map(({ from, to }) => ({
    from,
    rate: (to - from) / ((times[to] ?? 0) - (times[from] ?? 0)),
    frames: to - from,
  }));
}

/**
 * What the frames themselves say of a ramp: where the fastest rate is life, frames further apart are slowed down. A
 * guess, since a recorder that is short of light also lets frames come further apart. Null where the rate does not jump.
 */
export function rampInFrames(table: FrameTable): { readonly speed: SpeedMap; readonly times: number } | null {
  const stretches = rateStretches(table);
  const rates = stretches.filter((s) => s.frames >= steady).map((s) => s.rate);
  const fastest = Math.max(...rates);
  const slowest = Math.min(...rates);
  if (stretches.length < 2 || stretches.length > mostStretches || !(fastest / slowest >= jump)) return null;
  return { speed: speedsAt(table, stretches, fastest), times: fastest / slowest };
}

/** The speed map of a clip filmed at `fps` frames a second throughout, none of which was left out. */
export function speedsAtRate(table: FrameTable, fps: number): SpeedMap {
  const stretches = rateStretches(table);
  if (stretches.length > 1 && rampInFrames(table)) return speedsAt(table, stretches, fps);
  const last = table.pts.length - 1;
  const seconds = frameSeconds(table, frameIndex(last)) - frameSeconds(table, frameIndex(0));
  if (!(last > 0)) return [];
  return [{ from: frameSeconds(table, frameIndex(0)), speed: nearLife(last / seconds / fps) }];
}

/** Frames a second of the file at a frame; null for a clip of one frame. */
export function rateAt(stretches: readonly RateStretch[], frame: number): number | null {
  return (stretches.findLast((s) => s.from <= frame) ?? stretches[0])?.rate ?? null;
}

function speedsAt(table: FrameTable, stretches: readonly RateStretch[], fps: number): SpeedMap {
  return stretches.map((s) => ({
    from: frameSeconds(table, frameIndex(s.from)),
    speed: nearLife(s.rate / fps),
  }));
}

/** Three in a hundred is what recorders are off; the clip is meant to play as fast as life. */
function nearLife(speed: number): number {
  return Math.abs(speed - 1) < 0.03 ? 1 : speed;
}

/**
 * A change of pace falls between two frames, so one gap is partly slow and partly fast. It is a stretch of its own:
 * otherwise everything after it would be off by part of a frame.
 */
function withTurns(
  found: readonly { readonly from: number; readonly to: number }[],
  gaps: readonly number[],
): { from: number; to: number }[] {
  const mean = (s: { from: number; to: number }): number => {
    const inside = gaps.slice(s.from + 1, s.to - 1);
    const list = inside.length > 0 ? inside : gaps.slice(s.from, s.to);
    return list.reduce((a, b) => a + b, 0) / list.length;
  };
  const between = (gap: number, a: number, b: number): boolean =>
    gap > Math.min(a, b) * 1.01 && gap < Math.max(a, b) * 0.99;
  return found.flatMap((s, i) => {
    const before = found[i - 1];
    const after = found[i + 1];
    const cuts = [s.from, s.to];
    const own = mean(s);
    if (before && s.to - s.from > 2 && between(gaps[s.from] ?? 0, mean(before), own)) cuts.push(s.from + 1);
    if (after && s.to - s.from > 2 && between(gaps[s.to - 1] ?? 0, own, mean(after))) cuts.push(s.to - 1);
    cuts.sort((a, b) => a - b);
    return cuts.slice(1).map((to, k) => ({ from: cuts[k] ?? s.from, to }));
  });
}

function medianAround(gaps: readonly number[], i: number): number {
  const near = gaps.slice(Math.max(0, i - 2), i + 3).sort((a, b) => a - b);
  return near[(near.length - 1) >> 1] ?? 0;
}
