import type { Facing } from '../dubins.ts';
import { gridOf, type Gate, type Taking } from './gates.ts';
import type { Box } from './solids.ts';
import { blockedPrice } from './stretch.ts';

/** A gate with the takings that stand in its grid. */
export interface Rank {
  readonly gate: Gate;
  readonly figures: readonly (readonly number[])[];
  readonly takings: readonly Taking[];
  readonly prices: Float64Array;
  /** The facings its ways end in and go on from, each once, and which of them each taking has. */
  readonly ins: readonly Facing[];
  readonly outs: readonly Facing[];
  readonly inOf: Int32Array;
  readonly outOf: Int32Array;
  /** How many figures stand in the grid each way. */
  readonly counts: readonly number[];
  /** Every second taking each way, with those at both ends. */
  readonly coarse: readonly number[];
  /** The takings beside each in the grid, aslant too. */
  readonly beside: readonly (readonly number[])[];
  /** A circle round all of the ground that its takings touch. */
  readonly x: number;
  readonly y: number;
  readonly reach: number;
}

/** A gate's grid. @param counts how many figures each way, where not the gate's own */
export function rankOf(gate: Gate, counts: readonly number[] = gate.free.map((f) => f.count)): Rank {
  const figures = gridOf(gate, counts);
  const takings = figures.map((f) => gate.taking(f));
  const ins = [...new Set(takings.map((t) => t.before))];
  const outs = [...new Set(takings.map((t) => t.after))];
  const places = takings.flatMap((t) => [t.before, t.entry, t.exit, t.after]);
  const x = places.reduce((sum, p) => sum + p.x, 0) / places.length;
  const y = places.reduce((sum, p) => sum + p.y, 0) / places.length;
  return {
    gate,
    figures,
    takings,
    prices: Float64Array.from(takings, takingPrice),
    ins,
    outs,
    inOf: Int32Array.from(takings, (t) => ins.indexOf(t.before)),
    outOf: Int32Array.from(takings, (t) => outs.indexOf(t.after)),
    counts,
    coarse: figures.flatMap((_, i) =>
      placesIn(i, counts).every((at, k) => isCoarse(gate, counts, at, k)) ? [i] : [],
    ),
    beside: figures.map((_, i) => besideOf(i, gate, counts)),
    x,
    y,
    reach: Math.max(...places.map((p) => Math.hypot(p.x - x, p.y - y))),
  };
}

/** What a taking itself costs. */
export const takingPrice = (t: Taking): number =>
  t.seconds + t.leadSeconds[0] + t.leadSeconds[1] + (t.clear ? 0 : blockedPrice);

/** Where a taking stands in the grid, each way. */
function placesIn(index: number, counts: readonly number[]): number[] {
  let left = index;
  return counts
    .toReversed()
    .map((count) => {
      const at = left % count;
      left = (left - at) / count;
      return at;
    })
    .reverse();
}

/** Where the takings beside one stand in the grid: a figure or more of theirs one place up or down. */
function besideOf(index: number, gate: Gate, counts: readonly number[]): number[] {
  const here = placesIn(index, counts);
  const near = here.reduce<readonly number[]>(
    (all, at, way) => {
      const count = counts[way] ?? 1;
      const round = gate.free[way]?.round === true;
      const places = [at - 1, at, at + 1].flatMap((k) =>
        round ? [(k + count) % count] : k >= 0 && k < count ? [k] : [],
      );
      return all.flatMap((before) => [...new Set(places)].map((k) => before * count + k));
    },
    [0],
  );
  return near.filter((k) => k !== index);
}

function isCoarse(gate: Gate, counts: readonly number[], at: number, way: number): boolean {
  const count = counts[way] ?? 1;
  return gate.free[way]?.between !== true || count < 4 || at % 2 === 0 || at === count - 1;
}

/** True where one of some boxes may lie on the ground that a rank's takings touch. */
export const touchedBy = (rank: Rank, boxes: readonly Box[], gap: number): boolean =>
  boxes.some((b) => Math.hypot(b.x - rank.x, b.y - rank.y) <= rank.reach + b.reach + gap);

/** A rank whose takings are as clear as the gate says now: the same one where nothing has changed. */
export function rankNow(rank: Rank): Rank {
  const same = rank.takings.every((t, i) => rank.gate.taking(rank.figures[i] ?? []).clear === t.clear);
  return same ? rank : rankOf(rank.gate, rank.counts);
}
