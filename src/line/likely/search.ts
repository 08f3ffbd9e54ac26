import type { Rank } from './ranks.ts';
import type { Stretch } from './stretch.ts';

/**
 * The quickest choice of a taking at each gate, by dynamic programming (Bellman 1957) over all takings of the grids.
 * @returns the place of each choice in its grid
 */
export function quickestOfAll(ranks: readonly Rank[], stretches: readonly Stretch[]): readonly number[] {
  return quickestOf(
    ranks,
    stretches,
    ranks.map((r) => [...r.takings.keys()]),
  ).chosen;
}

/**
 * The same choice with far fewer prices asked (branch and bound, Land and Doig 1960): a price is asked only where what
 * it is at least leaves room below a run that is known already.
 * @param guess a choice that is likely to be good; absent: the quickest over every second taking each way
 */
export function quickestBounded(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  guess?: readonly number[],
): readonly number[] {
  const begin =
    guess ??
    quickestOf(
      ranks,
      stretches,
      ranks.map((r) => r.coarse),
    ).chosen;
  const most =
    begin.reduce(
      (sum, k, i) => sum + (ranks[i]?.prices[k] ?? 0) + (stretches[i - 1]?.price(begin[i - 1] ?? 0, k) ?? 0),
      0,
    ) + 1e-9;
  const home = homeAtLeast(ranks, stretches);
  const back = ranks.map((r) => new Int32Array(r.takings.length));
  let before = Float64Array.from(ranks[0]?.prices ?? []);
  for (let i = 1; i < ranks.length; i++) {
    const stretch = stretches[i - 1];
    const rank = ranks[i];
    const rest = home[i];
    const by = back[i];
    if (!stretch || !rank || !rest || !by) break;
    const order = [...before.keys()].filter((j) => (before[j] ?? 0) < Infinity);
    order.sort((a, b) => (before[a] ?? 0) - (before[b] ?? 0));
    const here = new Float64Array(rank.takings.length).fill(Infinity);
    for (let k = 0; k < here.length; k++) {
      let least = most - (rank.prices[k] ?? 0) - (rest[k] ?? 0);
      let found = false;
      for (const j of order) {
        const cost = before[j] ?? Infinity;
        if (cost >= least) break;
        if (cost + stretch.bound(j, k) >= least) continue;
        const sum = cost + stretch.price(j, k, least - cost);
        if (sum >= least) continue;
        least = sum;
        by[k] = j;
        found = true;
      }
      if (found) here[k] = least + (rank.prices[k] ?? 0);
    }
    before = here;
  }
  let at = before.reduce((best, sum, k) => (sum < (before[best] ?? Infinity) ? k : best), 0);
  if (!((before[at] ?? Infinity) < Infinity)) return begin;
  const chosen = [at];
  for (let i = ranks.length - 1; i > 0; i--) {
    at = back[i]?.[at] ?? 0;
    chosen.unshift(at);
  }
  return chosen;
}

/** What the rest of the run costs at least from each taking on, without the taking itself. */
function homeAtLeast(ranks: readonly Rank[], stretches: readonly Stretch[]): readonly Float64Array[] {
  const home = ranks.map((r) => new Float64Array(r.takings.length));
  for (let i = ranks.length - 2; i >= 0; i--) {
    const here = home[i];
    const rest = home[i + 1];
    const stretch = stretches[i];
    const next = ranks[i + 1];
    if (!here || !rest || !stretch || !next) continue;
    const beyond = rest.map((sum, k) => sum + (next.prices[k] ?? 0));
    for (let j = 0; j < here.length; j++) {
      let least = Infinity;
      for (let k = 0; k < beyond.length; k++) {
        const sum = stretch.bound(j, k) + (beyond[k] ?? 0);
        if (sum < least) least = sum;
      }
      here[j] = least;
    }
  }
  return home;
}

interface Found {
  readonly chosen: readonly number[];
  readonly seconds: number;
  /** From the start up to and with each taking. */
  readonly costs: readonly Float64Array[];
}

function quickestOf(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  open: readonly (readonly number[])[],
): Found {
  const back = ranks.map((r) => new Int32Array(r.takings.length));
  const costs = ranks.map((r) => new Float64Array(r.takings.length).fill(Infinity));
  ranks.forEach((rank, i) => {
    const here = costs[i];
    const before = costs[i - 1];
    const stretch = stretches[i - 1];
    for (const k of open[i] ?? []) {
      let least = i === 0 ? 0 : Infinity;
      if (before && stretch) {
        for (const j of open[i - 1] ?? []) {
          const sum = (before[j] ?? Infinity) + stretch.price(j, k);
          if (sum < least) {
            least = sum;
            const by = back[i];
            if (by) by[k] = j;
          }
        }
      }
      if (here) here[k] = least + (rank.prices[k] ?? 0);
    }
  });
  const last = ranks.length - 1;
  const ends = open[last] ?? [];
  const end = (k: number): number => costs[last]?.[k] ?? Infinity;
  let at = ends.reduce((best, k) => (end(k) < end(best) ? k : best), ends[0] ?? 0);
  const seconds = end(at);
  const chosen = [at];
  for (let i = last; i > 0; i--) {
    at = back[i]?.[at] ?? 0;
    chosen.unshift(at);
  }
  return { chosen, seconds, costs };
}
