import { middle, type Bracket } from '../../time/bracket.ts';
import { against, timeBetween, type Quantity } from '../../time/quantity.ts';
import type { Analysis } from '../analysis.ts';
import { partsTogether, twoParts, type PartsTogether, type StretchRun, type TwoParts } from './twoParts.ts';

/** A run to be laid beside others. */
export interface RunBeside {
  readonly analysis: Pick<Analysis, 'taken' | 'countedTry' | 'clock'>;
  /** Metres of the dog's real line up to the out of each number, where it was measured, by that number. */
  readonly lengths: ReadonlyMap<number, Quantity>;
}

/** One stretch in every run; null where a run has not both its ends. */
export interface StretchRow {
  /** null: from the start of the clock. */
  readonly from: number | null;
  readonly to: number;
  readonly runs: readonly (StretchRun | null)[];
  /** Seconds of each run. */
  readonly times: readonly (Quantity | null)[];
  /** Against the first run; null for it, and where one has not run the stretch. */
  readonly parts: readonly (TwoParts | null)[];
  /** Which run was quickest; null where the plus or minus leaves it open, or fewer than two ran it. */
  readonly quickest: number | null;
}

/** How far a run is behind the first at the out of a number (ahead where below nought). */
export interface GapAt {
  readonly place: number;
  readonly gap: Quantity;
}

export interface SideBySide {
  readonly rows: readonly StretchRow[];
  /** For each run: its gap to the first, number by number. */
  readonly gaps: readonly (readonly GapAt[])[];
  /** For each run, against the first: the stretches that both ran, together. */
  readonly together: readonly (PartsTogether | null)[];
  /** The quickest of every stretch over all runs, and their sum; `complete` where no stretch is missing in it. */
  readonly best: {
    readonly rows: readonly BestOf[];
    readonly sum: Quantity;
    readonly complete: boolean;
  } | null;
  /** False where the runs' clocks start by different things: gaps then count from the first out that all have. */
  readonly clocksAgree: boolean;
}

export interface BestOf {
  readonly to: number;
  readonly run: number;
  readonly time: Quantity;
}

/**
 * Lays runs of one course beside each other, matched by obstacle: each stretch in every run, the time between them
 * parted into distance and speed, how the gap grew, and the quickest stretches. The first run is the measure.
 * A number that a run did not take, or took without an out, leaves its two stretches open in that run.
 */
export function sideBySide(runs: readonly RunBeside[]): SideBySide {
  const outs = runs.map(outsOf);
  const places = [...new Set(outs.flatMap((o) => [...o.keys()]))].sort((a, b) => a - b);
  // A run without a clock has nothing to disagree with; it leaves its own figures open.
  const clocksAgree = new Set(runs.flatMap((r) => r.analysis.clock?.startedBy ?? [])).size === 1;
  const rows = places.map((to) => rowOf(to, runs, outs, clocksAgree));
  return {
    rows,
    gaps: runs.map((run, i) => (i === 0 ? [] : gapsOf(runs[0], run, outs[0], outs[i], clocksAgree))),
    together: runs.map((_, i) =>
      i === 0
        ? null
        : partsTogether(
            rows.flatMap((row) => {
              const [a, b] = [row.runs[0], row.runs[i]];
              return a && b ? [[a, b] as const] : [];
            }),
          ),
    ),
    best: bestOf(rows),
    clocksAgree,
  };
}

type Outs = ReadonlyMap<number, Bracket>;

function outsOf({ analysis: { taken, countedTry } }: RunBeside): Outs {
  return new Map(
    taken.flatMap((t) => (t.try === countedTry && t.out ? [[t.place, t.out.bracket] as const] : [])),
  );
}

function rowOf(
  to: number,
  runs: readonly RunBeside[],
  outs: readonly Outs[],
  clocksAgree: boolean,
): StretchRow {
  const stretches = runs.map((run, i): StretchRun | null => {
    const end = outs[i]?.get(to);
    const first = clocksAgree ? run.analysis.clock?.start.bracket : undefined;
    const begin = to === 1 ? first : outs[i]?.get(to - 1);
    return begin && end ? { from: begin, to: end, length: run.lengths.get(to) ?? null } : null;
  });
  const times = stretches.map((s) => s && timeBetween(s.from, s.to));
  const [measure] = stretches;
  return {
    from: to === 1 ? null : to - 1,
    to,
    runs: stretches,
    times,
    parts: stretches.map((s, i) => (i > 0 && s && measure ? twoParts(measure, s) : null)),
    quickest: quickestOf(times),
  };
}

function quickestOf(times: readonly (Quantity | null)[]): number | null {
  const ran = times.flatMap((time, run) => (time ? [{ time, run }] : []));
  if (ran.length < 2) return null;
  const best = ran.reduce((a, b) => (b.time.value < a.time.value ? b : a));
  const sure = ran.every(
    ({ run, time }) =>
      run === best.run ||
      against(
        {
          value: time.value - best.time.value,
          plusMinus: time.plusMinus + best.time.plusMinus,
          unit: 's',
        },
        0,
      ) === 'above',
  );
  return sure ? best.run : null;
}

function gapsOf(
  first: RunBeside | undefined,
  other: RunBeside,
  outsA: Outs = new Map(),
  outsB: Outs = new Map(),
  clocksAgree: boolean,
): readonly GapAt[] {
  const both = [...outsA.keys()].filter((place) => outsB.has(place)).sort((a, b) => a - b);
  const [zero] = both;
  const [clockA, clockB] = [first?.analysis.clock, other.analysis.clock];
  const byClock = clocksAgree && clockA && clockB;
  const startA = byClock ? clockA.start.bracket : zero && outsA.get(zero);
  const startB = byClock ? clockB.start.bracket : zero && outsB.get(zero);
  if (!startA || !startB) return [];
  return both.flatMap((place) => {
    const [a, b] = [outsA.get(place), outsB.get(place)];
    if (!a || !b) return [];
    // The start itself is where both stand level.
    if (a === startA && b === startB) return [{ place, gap: { value: 0, plusMinus: 0, unit: 's' as const } }];
    const [tA, tB] = [timeBetween(startA, a), timeBetween(startB, b)];
    return [
      {
        place,
        gap: { value: tB.value - tA.value, plusMinus: tA.plusMinus + tB.plusMinus, unit: 's' as const },
      },
    ];
  });
}

function bestOf(rows: readonly StretchRow[]): SideBySide['best'] {
  const best: BestOf[] = [];
  for (const { to, times } of rows) {
    const ran = times.flatMap((time, run) => (time && time.value >= 0 ? [{ to, time, run }] : []));
    const [one, ...others] = ran;
    if (!one) continue;
    best.push(others.reduce((a, b) => (b.time.value < a.time.value ? b : a), one));
  }
  if (best.length === 0) return null;
  return {
    rows: best,
    sum: {
      value: best.reduce((s, b) => s + b.time.value, 0),
      // Stretches of different runs share no edges: all of their widths add up.
      plusMinus: best.reduce((s, b) => s + b.time.plusMinus, 0),
      unit: 's',
    },
    complete: best.length === rows.at(-1)?.to,
  };
}

/**
 * Where the other dog is when this one is at a moment: at the same place of the course, by the outs of the numbers
 * that both took; between two outs in proportion, before the first and after the last at life's pace.
 * @returns run time of the other run, or null where they share no number
 */
export function samePlace(at: number, from: RunBeside, to: RunBeside): number | null {
  const [a, b] = [edgesOf(from), edgesOf(to)];
  const shared = [...a.keys()]
    .filter((key) => b.has(key))
    .map((key) => ({ a: a.get(key) ?? NaN, b: b.get(key) ?? NaN }))
    .sort((p, q) => p.a - q.a)
    // Marks out of order in the other run would make time run backwards.
    .filter((pair, i, all) => all.slice(0, i).every((p) => p.b < pair.b && p.a < pair.a));
  const [first] = shared;
  const last = shared.at(-1);
  if (!first || !last) return null;
  if (at <= first.a) return first.b + (at - first.a);
  if (at >= last.a) return last.b + (at - last.a);
  const next = shared.findIndex((p) => p.a > at);
  const [p, q] = [shared[next - 1], shared[next]];
  if (!p || !q) return null;
  return p.b + ((at - p.a) * (q.b - p.b)) / (q.a - p.a);
}

/** Every edge of the try that counts, by number and edge: run times of the middles. */
function edgesOf({ analysis: { taken, countedTry } }: RunBeside): ReadonlyMap<string, number> {
  const edges = new Map<string, number>();
  for (const t of taken) {
    if (t.try !== countedTry) continue;
    if (t.in && !t.single) edges.set(`${t.place} in`, middle(t.in.bracket));
    if (t.out) edges.set(`${t.place} out`, middle(t.out.bracket));
  }
  return edges;
}
