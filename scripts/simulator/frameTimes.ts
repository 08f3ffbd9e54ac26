import { randomStream } from './base/random.ts';

/** Presentation times of a film's frames, whole numbers in units of `timeBase` seconds. */
export interface FrameTimes {
  readonly timeBase: readonly [number, number];
  readonly pts: readonly number[];
}

/** Frames at a constant rate that cover `duration` seconds. */
export function steadyFrames(rate: number, duration: number): FrameTimes {
  const count = Math.max(1, Math.floor(duration * rate));
  const unit = 512;
  return { timeBase: [1, rate * unit], pts: Array.from({ length: count }, (_, i) => i * unit) };
}

/** Frames as a phone writes them: near a nominal rate, each a little early or late, some left out. */
export function unsteadyFrames(seed: number, nominal: number, duration: number): FrameTimes {
  const random = randomStream(seed).branch('frames');
  const base = 90000;
  const pts: number[] = [0];
  let at = 0;
  while (at < duration) {
    const skips = random.chance(0.03) ? 1 + random.whole(2) : 0;
    const length = ((1 + skips) / nominal) * (1 + 0.08 * (random.uniform() - 0.5));
    at += length;
    if (at < duration) pts.push(Math.round(at * base));
  }
  return { timeBase: [1, base], pts };
}

/** The same times in seconds. */
export function secondsOf(frames: FrameTimes): number[] {
  const [num, den] = frames.timeBase;
  return frames.pts.map((p) => (p * num) / den);
}

/** One stretch of a clip that plays `slow` times slower than life; `until` is captured time, seconds. */
export interface Pace {
  readonly until: number;
  readonly slow: number;
}

/** Media time at a captured time (both from the clip's beginning), for a clip whose pace changes. */
export function mediaTime(paces: readonly Pace[], captured: number): number {
  let media = 0;
  let from = 0;
  for (const pace of paces) {
    const until = Math.min(captured, pace.until);
    if (until > from) media += (until - from) * pace.slow;
    from = Math.max(from, pace.until);
    if (captured <= pace.until) return media;
  }
  return media + Math.max(0, captured - from);
}

/** Frames captured at `rate` and written so that they play slower, stretch by stretch, as phones do. */
export function slowedFrames(rate: number, duration: number, paces: readonly Pace[]): FrameTimes {
  const base = 600 * rate;
  const count = Math.max(1, Math.floor(duration * rate));
  return {
    timeBase: [1, base],
    pts: Array.from({ length: count }, (_, i) => Math.round(mediaTime(paces, i / rate) * base)),
  };
}
