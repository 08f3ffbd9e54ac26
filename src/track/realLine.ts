import { agreeing, type Against, type Agreeing } from './contradictions.ts';
import { followed } from './followed.ts';
import type { Mat } from './matrices.ts';
import type { Flight } from './motion.ts';
import type { Weave } from './poles.ts';
import { isSound, type LineReading } from './readings.ts';
import type { Pushes } from './spans.ts';
import type { Smoothed } from './smoother.ts';

/** How well the course was fitted to the picture: one object for all lines of one fit, since they share its error. */
export interface FitError {
  /** Covariance of its parameters. */
  readonly cov: Mat;
}

export interface LineWish {
  readonly who: 'dog' | 'handler';
  readonly readings: readonly LineReading[];
  readonly flights?: readonly Flight[];
  /** Times between weave poles. */
  readonly weaves?: readonly Weave[];
  readonly fit?: FitError;
  /** m²/s³; absent: what the readings make likeliest. */
  readonly push?: number;
  /** Longest time between two stored states, seconds. */
  readonly step?: number;
  /** `keep`: the coach has looked at what contradicts the rest, and it is right. */
  readonly contradictions?: 'setAside' | 'keep';
}

/** A way through readings. Times are seconds, all else metres. */
export interface RealLine {
  readonly who: 'dog' | 'handler';
  /** First and last reading; nothing is said outside of them. */
  readonly from: number;
  readonly to: number;
  /** Intensity of the accelerations of the whole line, m²/s³. */
  readonly push: number;
  /** What was used: each stretch of ground by its own. */
  readonly pushes: Pushes;
  /** Times without a reading that last longer than a stride. */
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  /** Times between weave poles, where she swings from side to side between the readings. */
  readonly weaves: readonly Weave[];
  /** Moments of the stored states, rising. */
  readonly times: readonly number[];
  readonly smoothed: Smoothed;
  readonly fit: FitError | null;
  /** Readings that could not be used: a number that is none, a covariance that cannot be. By place in the list given. */
  readonly leftOut: readonly number[];
  /** Readings set aside, such as a click on the wrong dog, by place in the list given: rising. */
  readonly against: readonly { readonly place: number; readonly why: Against }[];
}

/**
 * Longer than any stride, seconds on the ground: what lies between was not seen. One foot of a person who walks comes
 * down about every 1.1 s (common practice), and she halts for a moment; bands hold up to 1.5 s (bench `ground`, handler).
 */
export const longGap = { dog: 0.8, handler: 1.5 } as const;

/**
 * The smoothed way through the readings, in whatever order they come; two at one moment count as two.
 * @returns null where fewer than two moments can be used
 */
export function realLine(wish: LineWish): RealLine | null {
  const leftOut: number[] = [];
  const kept = wish.readings
    .filter((r, i) => {
      if (isSound(r)) return true;
      leftOut.push(i);
      return false;
    })
    .toSorted((a, b) => a.at - b.at);
  const from = kept[0]?.at;
  const to = kept.at(-1)?.at;
  if (from === undefined || to === undefined || !(to > from)) return null;
  const flights = (wish.flights ?? []).filter((f) => f.to > f.from);
  const how = { who: wish.who, flights, ...(wish.push === undefined ? {} : { push: wish.push }) };
  const { line, used, against }: Agreeing =
    wish.contradictions === 'keep'
      ? { line: followed(kept, how), used: kept, against: new Map() }
      : agreeing(kept, how);
  const moments = filled(line.moments, wish.step ?? 0.04);
  return {
    who: wish.who,
    from: used[0]?.at ?? from,
    to: used.at(-1)?.at ?? to,
    push: line.push,
    pushes: line.pushes,
    gaps: gapsOf(
      used.map((r) => r.at),
      flights,
      longGap[wish.who],
    ),
    weaves: wish.weaves ?? [],
    times: moments,
    smoothed: line.at(moments, wish.fit?.cov.rows ?? 0),
    fit: wish.fit ?? null,
    leftOut,
    against: wish.readings.flatMap((r, place) => {
      const why = against.get(r);
      return why ? [{ place, why }] : [];
    }),
  };
}

function filled(moments: readonly number[], step: number): number[] {
  const out: number[] = [];
  moments.forEach((t, i) => {
    const next = moments[i + 1];
    out.push(t);
    if (next === undefined) return;
    const pieces = Math.min(1000, Math.ceil((next - t) / step - 1e-9));
    for (let k = 1; k < pieces; k++) out.push(t + ((next - t) * k) / pieces);
  });
  return out;
}

/** Times on the ground without a reading; a flight needs none, since she goes straight on. */
function gapsOf(
  moments: readonly number[],
  flights: readonly Flight[],
  long: number,
): { from: number; to: number }[] {
  return moments.slice(1).flatMap((to, i) => {
    const from = moments[i] ?? to;
    const flown = flights.reduce(
      (sum, f) => sum + Math.max(0, Math.min(to, f.to) - Math.max(from, f.from)),
      0,
    );
    return to - from - flown > long ? [{ from, to }] : [];
  });
}
