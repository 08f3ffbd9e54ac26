import type { Taking } from './gates.ts';
import { takingPrice, type Rank } from './search.ts';
import { priceOf, type Route, type Stretch } from './stretch.ts';

/** A choice for each gate, with the ways between them. */
export interface Chosen {
  readonly figures: readonly (readonly number[])[];
  readonly takings: readonly Taking[];
  readonly routes: readonly Route[];
}

/** The figures are moved by half of their grid's step at first, then by half of that, and so on, so many times. */
const halvings = 4;
/** A gate is gone back to where its neighbours moved; so many times the whole course at the most. */
const mostRounds = 12;

/**
 * Moves the figures of each gate between those of its grid, one at a time, for as long as the run gets quicker
 * (coordinate descent): what the grid is too coarse for. Where a gate does not move any more it is left alone until a
 * neighbour moves.
 * @param dirty gates to begin with; absent: all
 */
export function refined(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  begin: readonly (readonly number[])[],
  dirty?: ReadonlySet<number>,
): Chosen {
  const figures = begin.map((f) => [...f]);
  const takings = ranks.map((rank, i) => rank.gate.taking(figures[i] ?? []));
  const routes = stretches.map((stretch, i) => routeAt(stretch, takings, i));
  const steps = ranks.map(({ gate }) => gate.free.map((f) => 1 / Math.max(1, f.count - 1)));
  let open = dirty ?? new Set(ranks.keys());
  for (let halving = 0; halving < halvings; halving++) {
    const touched = new Set(open);
    for (let round = 0; round < mostRounds && open.size > 0; round++) {
      const moved = new Set<number>();
      for (const i of open) if (moveGate(i, ranks, stretches, figures, takings, routes, steps)) moved.add(i);
      open = new Set([...moved].flatMap((i) => [i - 1, i, i + 1]).filter((i) => i >= 0 && i < ranks.length));
      for (const i of open) touched.add(i);
    }
    for (const i of touched) steps[i] = (steps[i] ?? []).map((s) => s / 2);
    open = touched;
  }
  return { figures, takings, routes };
}

const routeAt = (stretch: Stretch, takings: readonly Taking[], i: number): Route => {
  const [a, b] = [takings[i], takings[i + 1]];
  return a && b ? stretch.route(a.after, b.before) : { ways: [], seconds: 0, clear: true };
};

function moveGate(
  i: number,
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  figures: number[][],
  takings: Taking[],
  routes: Route[],
  steps: readonly (readonly number[])[],
): boolean {
  const rank = ranks[i];
  const own = figures[i];
  if (!rank || !own) return false;
  const [before, after] = [takings[i - 1], takings[i + 1]];
  const [into, out] = [stretches[i - 1], stretches[i]];
  const price = (t: Taking, a: Route | undefined, b: Route | undefined): number =>
    takingPrice(t) + (a ? priceOf(a) : 0) + (b ? priceOf(b) : 0);
  const there = takings[i];
  if (!there) return false;
  let least = price(there, routes[i - 1], routes[i]);
  let moved = false;
  rank.gate.free.forEach((free, k) => {
    if (!free.between) return;
    const step = steps[i]?.[k] ?? 0;
    for (const way of [1, -1]) {
      const at = own[k] ?? 0;
      const to = free.round === true ? at + way * step : Math.max(-1, Math.min(1, at + way * step));
      if (to === at) continue;
      const taking = rank.gate.taking(own.with(k, to));
      const a = into && before ? into.route(before.after, taking.before) : undefined;
      const b = out && after ? out.route(taking.after, after.before) : undefined;
      const now = price(taking, a, b);
      if (now >= least - 1e-7) continue;
      least = now;
      own[k] = to;
      takings[i] = taking;
      if (a) routes[i - 1] = a;
      if (b) routes[i] = b;
      moved = true;
      break;
    }
  });
  return moved;
}
