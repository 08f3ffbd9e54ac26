import { entry, mat, zeros, type Mat } from './matrices.ts';
import { onward, usualPush, type Flight } from './motion.ts';
import { isSound, readingOf, type LineReading } from './readings.ts';
import { pushedAnew, shakeBetween, spansOf, type Pushes } from './spans.ts';
import { logLikelihoodOf, smoothed, type Estimate, type Smoothed, type Stage } from './smoother.ts';

/** How well the course was fitted to the picture: one object for all lines of one fit, since they share its error. */
export interface FitError {
  /** Covariance of its parameters. */
  readonly cov: Mat;
}

export interface LineWish {
  readonly who: 'dog' | 'handler';
  readonly readings: readonly LineReading[];
  readonly flights?: readonly Flight[];
  readonly fit?: FitError;
  /** m²/s³; absent: what the readings make likeliest. */
  readonly push?: number;
  /** Longest time between two stored states, seconds. */
  readonly step?: number;
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
  /** Times without a reading that last longer than `longGap`. */
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  /** Moments of the stored states, rising. */
  readonly times: readonly number[];
  readonly smoothed: Smoothed;
  readonly fit: FitError | null;
  /** Readings that could not be used: a number that is none, a covariance that cannot be. By place in the list given. */
  readonly leftOut: readonly number[];
}

/** Longer than any stride, seconds on the ground: what lies between was not seen. */
export const longGap = 0.8;

/** Before any reading: anywhere within a kilometre, at any speed a dog has. Variances, m² and m²/s². */
const anywhere = 1e6;
const anySpeed = 50;

/** Times that speeds and pushes are read anew from the line. */
const rounds = 8;

/** How far, as a factor, the likeliest push may lie from the usual one before it counts as odd (ours). */
const pushSpread = Math.log(4);

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
  const even = (push: number): Pushes => ({ flights, spans: spansOf(from, to, flights, push) });
  const edges = [...flights, ...even(0).spans]
    .flatMap((f) => [f.from, f.to])
    .filter((t) => t > from && t < to);
  const coarse = apart(rising(kept.map((r) => r.at)), rising(edges));
  const parameters = wish.fit?.cov.rows ?? 0;
  const still = new Map<LineReading, readonly [number, number]>();
  const stages = (moments: readonly number[], pushes: Pushes, columns: number): Stage[] => {
    const at = new Map<number, LineReading[]>();
    for (const r of kept) at.set(r.at, [...(at.get(r.at) ?? []), r]);
    return moments.map((t, i) => {
      const before = moments[i - 1] ?? t;
      return {
        move: onward(t - before),
        shake: shakeBetween(before, t, pushes),
        readings: (at.get(t) ?? []).map((r) => readingOf(r, still.get(r) ?? [0, 0], columns)),
      };
    });
  };
  const usual = usualPush[wish.who];
  let push = wish.push ?? usual;
  let pushes = even(push);
  // How far a late click lies off follows from the speed, and that from the line; so do the pushes of its parts.
  for (let round = 0; round < rounds; round++) {
    const first = smoothed(stages(coarse, pushes, 0), prior(0));
    const index = new Map(coarse.map((t, i) => [t, i]));
    for (const r of kept) {
      const mean = first.states[index.get(r.at) ?? 0]?.mean;
      if (mean) still.set(r, [entry(mean, 2, 0), entry(mean, 3, 0)]);
    }
    if (wish.push !== undefined) continue;
    if (round === 0) {
      push = likeliest(usual, (p) => logLikelihoodOf(stages(coarse, even(p), 0), prior(0)));
      pushes = even(push);
    } else pushes = { flights, spans: pushedAnew(pushes.spans, push, coarse, first) };
  }
  const moments = filled(coarse, wish.step ?? 0.04);
  return {
    who: wish.who,
    from,
    to,
    push,
    pushes,
    gaps: gapsOf(
      kept.map((r) => r.at),
      flights,
    ),
    times: moments,
    smoothed: smoothed(stages(moments, pushes, parameters), prior(parameters)),
    fit: wish.fit ?? null,
    leftOut,
  };
}

const prior = (parameters: number): Estimate => ({
  mean: zeros(4, 1 + parameters),
  cov: mat([
    [anywhere, 0, 0, 0],
    [0, anywhere, 0, 0],
    [0, 0, anySpeed, 0],
    [0, 0, 0, anySpeed],
  ]),
});

const rising = (list: readonly number[]): number[] => [...new Set(list)].sort((a, b) => a - b);

/** The first list with what of the second lies more than a tick of rounding from all before it. Both rise. */
function apart(moments: readonly number[], edges: readonly number[]): number[] {
  const tick = 1e-6;
  const out = [...moments];
  for (const t of edges) if (!out.some((m) => Math.abs(m - t) < tick)) out.push(t);
  return rising(out);
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
function gapsOf(moments: readonly number[], flights: readonly Flight[]): { from: number; to: number }[] {
  return moments.slice(1).flatMap((to, i) => {
    const from = moments[i] ?? to;
    const flown = flights.reduce(
      (sum, f) => sum + Math.max(0, Math.min(to, f.to) - Math.max(from, f.from)),
      0,
    );
    return to - from - flown > longGap ? [{ from, to }] : [];
  });
}

/**
 * The push that makes the readings likeliest, with the usual one as a weak belief (normal in its logarithm), so that
 * few readings cannot make it nothing. Golden section over the logarithm, to a hundredth.
 */
function likeliest(usual: number, likelihood: (push: number) => number): number {
  const worth = (log: number): number =>
    likelihood(Math.exp(log)) - 0.5 * ((log - Math.log(usual)) / pushSpread) ** 2;
  const ratio = (Math.sqrt(5) - 1) / 2;
  let low = Math.log(usual) - 5;
  let high = Math.log(usual) + 5;
  let a = high - ratio * (high - low);
  let b = low + ratio * (high - low);
  let fa = worth(a);
  let fb = worth(b);
  while (high - low > 0.02) {
    if (fa > fb) {
      high = b;
      b = a;
      fb = fa;
      a = high - ratio * (high - low);
      fa = worth(a);
    } else {
      low = a;
      a = b;
      fa = fb;
      b = low + ratio * (high - low);
      fb = worth(b);
    }
  }
  return Math.exp((low + high) / 2);
}
