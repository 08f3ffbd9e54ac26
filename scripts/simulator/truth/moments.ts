import type { Exposures } from '../film/order.ts';
import { secondsOf } from '../frameTimes.ts';

export type Seen = 'first' | 'last';

/** A moment, how a person marks it, and what the film leaves open about it. */
export interface Moment {
  /** Media time, seconds. */
  readonly at: number;
  /** Time of the run, seconds: real time, where a slowed film's media time is not. */
  readonly captured: number;
  readonly seen: Seen;
  /** PTS of the frame a faultless marker picks; null where no frame can show it. */
  readonly pts: number | null;
  /** Media times; open at the left for `first`, at the right for `last`. */
  readonly bracket: readonly [number | null, number | null];
}

export type MomentMaker = (runTime: number, seen: Seen) => Moment;

export function round(value: number, digits: number): number {
  const k = 10 ** digits;
  return Math.round(value * k) / k;
}

/**
 * Ties moments of a run to the frames of a film of it.
 * `readAfter`: by how many seconds after each frame's time the dog's rows were read (rolling shutter); 0s where absent.
 */
export function momentMaker(exposures: Exposures, readAfter: readonly number[] | null): MomentMaker {
  const { frames, captured } = exposures;
  const media = secondsOf(frames);
  const shows = readAfter ? captured.map((t, i) => t + (readAfter[i] ?? 0)) : captured;
  const count = captured.length;
  return (runTime, seen) => {
    let low = 0;
    let high = count;
    // First frame that shows it: at or after (`first`), or strictly after (`last`).
    while (low < high) {
      const middle = (low + high) >> 1;
      const t = shows[middle] ?? 0;
      if (seen === 'first' ? t >= runTime : t > runTime) high = middle;
      else low = middle + 1;
    }
    const chosen = seen === 'first' ? low : low - 1;
    return {
      at: round(mediaOf(runTime), 6),
      captured: round(runTime, 6),
      seen,
      pts: frames.pts[chosen] ?? null,
      bracket: [media[low - 1] ?? null, media[low] ?? null],
    };
  };

  function mediaOf(runTime: number): number {
    let low = 0;
    let high = count - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((captured[middle] ?? 0) <= runTime) low = middle;
      else high = middle;
    }
    const a = captured[low] ?? 0;
    const b = captured[high] ?? a;
    const from = media[low] ?? 0;
    if (runTime < a || b <= a) return from + (runTime - a);
    if (runTime > b) return (media[high] ?? 0) + (runTime - b);
    return from + ((media[high] ?? 0) - from) * ((runTime - a) / (b - a));
  }
}
