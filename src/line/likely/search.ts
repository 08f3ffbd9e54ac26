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
 * A run that is quicker than a known one by less than this, seconds, is not looked for: refinement gains more. Where a
 * guess is at hand, more may be left: what is refined then is the line of before.
 */
const tooLittle = 0.002;
const tooLittleBeside = 0.02;

/**
 * The same choice with far fewer prices asked (branch and bound, Land and Doig 1960): a price is asked only where what
 * it is at least leaves room below a run that is known already.
 * @param guess a choice that is likely to be good; absent: the quickest over every second taking each way
 * @param turn counts the searches, where each looks at every second of the takings far from the guess, the next at the
 *   others; absent: all of them
 */
export function quickestBounded(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  guess?: readonly number[],
  turn?: number,
): readonly number[] {
  const begin = [
    ...(guess ??
      quickestOf(
        ranks,
        stretches,
        ranks.map((r) => r.coarse),
      ).chosen),
  ];
  descend(ranks, stretches, begin);
  if (!guess) return boundedBelow(ranks, stretches, begin);
  // From a good guess, a quicker run lies beside it or shows among every second taking each way.
  let best = banded(ranks, stretches, begin);
  const wide = ranks.map((r, i) => {
    const far =
      turn === undefined || r.coarse.length < few
        ? r.coarse
        : r.coarse.filter((_, n) => (n + turn) % 2 === 0);
    return [...new Set([...far, best[i] ?? 0])];
  });
  const other = boundedBelow(ranks, stretches, best, wide, tooLittleBeside);
  if (other !== best) best = banded(ranks, stretches, other);
  return best;
}

/** So few takings are all looked at each time. */
const few = 8;

/** The quickest choice among takings beside those of a choice, again and again for as long as the run gets quicker. */
function banded(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  begin: readonly number[],
): readonly number[] {
  let best = begin;
  for (let round = 0; round < mostRounds; round++) {
    const band = ranks.map((r, i) => [best[i] ?? 0, ...(r.beside[best[i] ?? 0] ?? [])]);
    const next = boundedBelow(ranks, stretches, best, band, tooLittleBeside);
    if (next === best) break;
    best = next;
  }
  return best;
}

const costOf = (ranks: readonly Rank[], stretches: readonly Stretch[], chosen: readonly number[]): number =>
  chosen.reduce(
    (sum, k, i) => sum + (ranks[i]?.prices[k] ?? 0) + (stretches[i - 1]?.price(chosen[i - 1] ?? 0, k) ?? 0),
    0,
  );

/** The quickest choice among takings, or the one to begin with where none is quicker. */
function boundedBelow(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  begin: readonly number[],
  open: readonly (readonly number[])[] = ranks.map((r) => [...r.takings.keys()]),
  less = tooLittle,
): readonly number[] {
  const most = costOf(ranks, stretches, begin) - less;
  const home = homeAtLeast(ranks, stretches, open);
  const back = ranks.map((r) => new Int32Array(r.takings.length));
  let before = new Float64Array(ranks[0]?.takings.length ?? 0).fill(Infinity);
  for (const k of open[0] ?? []) before[k] = ranks[0]?.prices[k] ?? 0;
  for (let i = 1; i < ranks.length; i++) {
    const stretch = stretches[i - 1];
    const rank = ranks[i];
    const rest = home[i];
    const by = back[i];
    if (!stretch || !rank || !rest || !by) break;
    const here = new Float64Array(rank.takings.length).fill(Infinity);
    const sums = new Float64Array(before.length);
    for (const k of open[i] ?? []) {
      let least = most - (rank.prices[k] ?? 0) - (rest[k] ?? 0);
      let found = false;
      sums.fill(Infinity);
      for (const j of open[i - 1] ?? []) {
        const cost = before[j] ?? Infinity;
        sums[j] = cost < least ? cost + stretch.bound(j, k) : Infinity;
      }
      // The most promising first, so that most of the others need no price.
      for (let j = leastAt(sums); (sums[j] ?? Infinity) < least; j = leastAt(sums)) {
        const cost = before[j] ?? Infinity;
        const sum = cost + stretch.price(j, k, least - cost);
        sums[j] = Infinity;
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

/** Moves choices to takings beside them in the grid for as long as the run gets quicker. */
function descend(ranks: readonly Rank[], stretches: readonly Stretch[], chosen: number[]): void {
  const cost = (i: number, k: number, most: number): number => {
    const [before, after] = [chosen[i - 1], chosen[i + 1]];
    const [into, away] = [stretches[i - 1], stretches[i]];
    let sum = ranks[i]?.prices[k] ?? 0;
    if (into && before !== undefined) sum += into.bound(before, k);
    if (away && after !== undefined) sum += away.bound(k, after);
    if (sum >= most) return Infinity;
    sum = ranks[i]?.prices[k] ?? 0;
    if (into && before !== undefined) sum += into.price(before, k);
    if (away && after !== undefined && sum < most) sum += away.price(k, after);
    return sum;
  };
  let open: ReadonlySet<number> = new Set(ranks.keys());
  for (let round = 0; round < mostRounds && open.size > 0; round++) {
    const next = new Set<number>();
    for (const i of open) {
      const here = chosen[i] ?? 0;
      let least = cost(i, here, Infinity) - 1e-9;
      for (const k of ranks[i]?.beside[here] ?? []) {
        const sum = cost(i, k, least);
        if (sum >= least) continue;
        least = sum;
        chosen[i] = k;
      }
      if (chosen[i] !== here) for (const k of [i - 1, i, i + 1]) if (ranks[k]) next.add(k);
    }
    open = next;
  }
}

/** So often all choices are looked over before the search itself. */
const mostRounds = 12;

/** Where the least of some figures stands. */
function leastAt(figures: Float64Array): number {
  let at = 0;
  for (let i = 1; i < figures.length; i++) if ((figures[i] ?? 0) < (figures[at] ?? 0)) at = i;
  return at;
}

/** What the rest of the run costs at least from each taking on, without the taking itself. */
function homeAtLeast(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  open: readonly (readonly number[])[],
): readonly Float64Array[] {
  const home = ranks.map((r) => new Float64Array(r.takings.length));
  for (let i = ranks.length - 2; i >= 0; i--) {
    const here = home[i];
    const rest = home[i + 1];
    const stretch = stretches[i];
    const next = ranks[i + 1];
    if (!here || !rest || !stretch || !next) continue;
    const beyond = rest.map((sum, k) => sum + (next.prices[k] ?? 0));
    for (const j of open[i] ?? []) {
      let least = Infinity;
      for (const k of open[i + 1] ?? []) {
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
