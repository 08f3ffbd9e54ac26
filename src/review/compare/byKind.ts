import type { ObstacleKind } from '../../course/kinds.ts';
import type { Quantity } from '../../time/quantity.ts';
import type { Analysis } from '../analysis.ts';

/** The time on obstacles of one kind in one run. */
export interface KindTime {
  /** Obstacles with both edges marked, in the try that counts. */
  readonly count: number;
  readonly mean: Quantity;
}

export interface KindRow {
  readonly kind: ObstacleKind;
  /** null where a run has none with both edges marked. */
  readonly runs: readonly (KindTime | null)[];
}

/**
 * What runs of any courses share: the mean time on each kind of obstacle that at least two of them took. Each time is
 * held by its frames, so the plus or minus of a mean is the mean of theirs.
 */
export function timesByKind(runs: readonly Pick<Analysis, 'taken' | 'countedTry'>[]): readonly KindRow[] {
  const each = runs.map(timesOnKinds);
  return [...new Set(each.flatMap((kinds) => [...kinds.keys()]))]
    .map((kind) => ({ kind, runs: each.map((kinds) => kinds.get(kind) ?? null) }))
    .filter((row) => row.runs.filter((r) => r !== null).length >= 2);
}

/** The time of one run on each kind of obstacle, in the order in which the kinds came. */
export function timesOnKinds({
  taken,
  countedTry,
}: Pick<Analysis, 'taken' | 'countedTry'>): ReadonlyMap<ObstacleKind, KindTime> {
  const kinds = new Map<ObstacleKind, Quantity[]>();
  for (const t of taken) {
    if (t.try !== countedTry || !t.on || t.kind === 'unknown' || !(t.on.value >= 0)) continue;
    kinds.set(t.kind, [...(kinds.get(t.kind) ?? []), t.on]);
  }
  return new Map([...kinds].map(([kind, times]) => [kind, meanOf(times)]));
}

function meanOf(times: readonly Quantity[]): KindTime {
  const over = (of: (q: Quantity) => number): number =>
    times.reduce((sum, q) => sum + of(q), 0) / times.length;
  return {
    count: times.length,
    mean: { value: over((q) => q.value), plusMinus: over((q) => q.plusMinus), unit: 's' },
  };
}
