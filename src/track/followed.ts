import { entry, mat, zeros } from './matrices.ts';
import { onward, usualPush, type Flight } from './motion.ts';
import { readingOf, type LineReading } from './readings.ts';
import {
  logLikelihoodOf,
  smoothed,
  type Estimate,
  type Reading,
  type Smoothed,
  type Stage,
} from './smoother.ts';
import { pushedAnew, shakeBetween, spansOf, type Pushes } from './spans.ts';

/** A body followed through readings that are all believed. */
export interface Followed {
  /** Readings and edges of flights and spans, rising. */
  readonly moments: readonly number[];
  readonly push: number;
  readonly pushes: Pushes;
  /** As the last round took them. */
  readonly taken: ReadonlyMap<LineReading, Reading>;
  /** The state at one of the moments. */
  stateAt(moment: number): Estimate | null;
  /** The same with states at these moments, and with the derivatives by so many parameters of the fit. */
  at(moments: readonly number[], parameters: number): Smoothed;
}

export interface Following {
  readonly who: 'dog' | 'handler';
  readonly flights: readonly Flight[];
  /** m²/s³; absent: what the readings make likeliest. */
  readonly push?: number;
}

/** Before any reading: anywhere within a kilometre, at any speed a dog has. Variances, m² and m²/s². */
const anywhere = 1e6;
const anySpeed = 50;

/** Times that speeds and pushes are read anew from the line; speeds alone settle sooner. */
const rounds = 8;
const roundsOfSpeed = 3;

/** How far, as a factor, the likeliest push may lie from the usual one before it counts as odd (ours). */
const pushSpread = Math.log(4);

/**
 * Follows a body through its readings.
 * @param readings in the order of time, of two moments or more
 * @param all readings too whose moments are to be among the states, though they are not believed
 */
export function followed(
  readings: readonly LineReading[],
  { who, flights, push: stated }: Following,
  all: readonly LineReading[] = readings,
): Followed {
  const [from = 0, to = 0] = [all[0]?.at, all.at(-1)?.at];
  const even = (push: number): Pushes => ({ flights, spans: spansOf(from, to, flights, push) });
  const edges = [...flights, ...even(0).spans]
    .flatMap((f) => [f.from, f.to])
    .filter((t) => t > from && t < to);
  const moments = apart(rising(all.map((r) => r.at)), rising(edges));
  const index = new Map(moments.map((t, i) => [t, i]));
  const atMoment = new Map<number, LineReading[]>();
  for (const r of readings) atMoment.set(r.at, [...(atMoment.get(r.at) ?? []), r]);
  const speeds = new Map<LineReading, readonly [number, number]>();
  const take = (r: LineReading, parameters: number): Reading =>
    readingOf(r, speeds.get(r) ?? [0, 0], parameters);
  const stages = (at: readonly number[], pushes: Pushes, parameters: number): Stage[] =>
    at.map((t, i) => {
      const before = at[i - 1] ?? t;
      return {
        move: onward(t - before),
        shake: shakeBetween(before, t, pushes),
        readings: (atMoment.get(t) ?? []).map((r) => take(r, parameters)),
      };
    });
  const usual = usualPush[who];
  let push = stated ?? usual;
  let pushes = even(push);
  // How far a late click lies off follows from the speed, and that from the line; so do the pushes of its parts.
  for (let round = 0; round < (stated === undefined ? rounds : roundsOfSpeed); round++) {
    const first = smoothed(stages(moments, pushes, 0), prior(0));
    for (const r of all) {
      const mean = first.states[index.get(r.at) ?? 0]?.mean;
      if (mean) speeds.set(r, [entry(mean, 2, 0), entry(mean, 3, 0)]);
    }
    if (stated !== undefined) continue;
    if (round === 0) {
      push = likeliest(usual, (p) => logLikelihoodOf(stages(moments, even(p), 0), prior(0)));
      pushes = even(push);
    } else pushes = { flights, spans: pushedAnew(pushes.spans, push, moments, first) };
  }
  const at = (list: readonly number[], parameters: number): Smoothed =>
    smoothed(stages(list, pushes, parameters), prior(parameters));
  const { states } = at(moments, 0);
  return {
    moments,
    push,
    pushes,
    taken: new Map(all.map((r) => [r, take(r, 0)])),
    stateAt: (moment) => states[index.get(moment) ?? -1] ?? null,
    at,
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
