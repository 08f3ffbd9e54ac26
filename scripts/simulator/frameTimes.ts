import { randomStream } from './base/random.ts';

/** Presentation times of a film's frames, whole numbers in units of `timeBase` seconds. */
export interface FrameTimes {
  readonly timeBase: readonly [number, number];
  readonly pts: readonly number[];
}

export type Rate = 24 | 25 | 30 | 50 | 60 | 120 | 240;

/** Frames at a constant rate that cover `duration` seconds. */
export function steadyFrames(rate: Rate, duration: number): FrameTimes {
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
