import type { Facing } from '../dubins.ts';
import type { Taking } from './gates.ts';
import { takingPrice, type Rank } from './ranks.ts';
import { blockedPrice, type Route, type Stretch } from './stretch.ts';

/** A choice for each gate, with the ways between them. */
export interface Chosen {
  readonly figures: readonly (readonly number[])[];
  readonly takings: readonly Taking[];
  readonly routes: readonly Route[];
  /** What the run costs, blocked ways at their price. */
  readonly seconds: number;
  /** Gates that moved though they were not open: drawn along by their neighbours. */
  readonly drawnAlong: ReadonlySet<number>;
}

/** The first and the last step that a figure is moved by, as shares of its grid's. */
const shares = [1 / 2, 1 / 16] as const;
/** So many times a step is taken at the most before it is halved. */
const mostMoves = 8;

/**
 * Moves the figures of the gates between those of their grids for as long as the run gets quicker: each may stay or go a
 * step up or down, and all are decided at once by dynamic programming over these few (discrete differential dynamic
 * programming, Heidari and others 1971); where all stay, figures of one gate go together, aslant of the grid; then the
 * step is halved. A gate is left alone until one beside it moves. Short steps are priced by ways like those that are run
 * now, which is much cheaper and never too little.
 * @param open gates to begin with
 * @param firstStep as a share of the grid's
 */
export function refined(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  begin: readonly (readonly number[])[],
  open: ReadonlySet<number>,
  firstStep: number = shares[0],
): Chosen {
  const figures = begin.map((f) => [...f]);
  const known = ranks.map(() => new Map<string, Taking>());
  const takingAt = (i: number, at: readonly number[]): Taking | undefined => {
    const key = at.join(' ');
    const taking = known[i]?.get(key) ?? ranks[i]?.gate.taking(at);
    if (taking) known[i]?.set(key, taking);
    return taking;
  };
  const routeNow = (i: number): Route => {
    const [a, b] = [takingAt(i, figures[i] ?? []), takingAt(i + 1, figures[i + 1] ?? [])];
    return (a && b && stretches[i]?.route(a.after, b.before)) ?? { ways: [], seconds: 0, clear: true };
  };
  const routes = stretches.map((_, i) => routeNow(i));
  const newPrice = (i: number, from: Facing, to: Facing): number => {
    const route = routes[i];
    const stretch = stretches[i];
    if (!route || !stretch) return 0;
    return anyWay ? stretch.priceBetween(from, to) : stretch.priceLike(route, from, to);
  };
  /** Whether any way between two facings is priced, or only those like the way that is run now. */
  let anyWay = true;
  const prices = stretches.map(() => new Map<Facing, Map<Facing, number>>());
  const price = (i: number, from: Facing, to: Facing): number => {
    const row = prices[i]?.get(from) ?? new Map<Facing, number>();
    prices[i]?.set(from, row);
    const known = row.get(to) ?? newPrice(i, from, to);
    row.set(to, known);
    return known;
  };
  const touched = new Set(open);
  const drawnAlong = new Set<number>();
  for (let step = firstStep; step >= shares[1]; step /= 2) {
    for (const aslant of [false, true]) {
      anyWay = !aslant && step >= shares[0];
      for (const p of prices) p.clear();
      let now: ReadonlySet<number> = new Set(touched);
      for (let move = 0; move < mostMoves && now.size > 0; move++) {
        const moved = new Set<number>();
        for (const [first, last] of runsOf(now)) {
          for (const i of moveRun(first, last, ranks, figures, takingAt, price, step, aslant)) {
            moved.add(i);
            if (!open.has(i)) drawnAlong.add(i);
          }
        }
        for (const i of new Set([...moved].flatMap((i) => [i - 1, i]))) {
          if (!stretches[i]) continue;
          routes[i] = routeNow(i);
          prices[i]?.clear();
        }
        now = new Set([...moved].flatMap((i) => [i - 1, i, i + 1]).filter((i) => ranks[i] !== undefined));
        for (const i of now) touched.add(i);
      }
    }
  }
  const takings = ranks.flatMap((_, i) => takingAt(i, figures[i] ?? []) ?? []);
  const seconds =
    takings.reduce((sum, t) => sum + takingPrice(t), 0) +
    routes.reduce((sum, r) => sum + r.seconds + (r.clear ? 0 : blockedPrice), 0);
  return { figures, takings, routes, drawnAlong, seconds };
}

/** Runs of gates that follow one another: first and last of each. */
function runsOf(gates: ReadonlySet<number>): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (const i of [...gates].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last?.[1] === i - 1) last[1] = i;
    else runs.push([i, i]);
  }
  return runs;
}

interface Option {
  readonly at: readonly number[];
  readonly taking: Taking;
  cost: number;
  by: Option | undefined;
}

/** Decides a run of gates at once, those beside it held. @returns the gates that moved */
function moveRun(
  first: number,
  last: number,
  ranks: readonly Rank[],
  figures: number[][],
  takingAt: (i: number, at: readonly number[]) => Taking | undefined,
  price: (stretch: number, from: Facing, to: Facing) => number,
  step: number,
  aslant: boolean,
): readonly number[] {
  const held = (i: number): readonly Option[] => {
    const at = figures[i];
    const taking = at && takingAt(i, at);
    return at && taking ? [{ at, taking, cost: 0, by: undefined }] : [];
  };
  let before = held(first - 1);
  for (let i = first; i <= last + 1; i++) {
    const rank = ranks[i];
    if (!rank) break;
    const options =
      i > last
        ? held(i)
        : stepsFrom(rank, figures[i] ?? [], step, aslant).flatMap((at): Option[] => {
            const taking = takingAt(i, at);
            return taking ? [{ at, taking, cost: 0, by: undefined }] : [];
          });
    for (const option of options) {
      let least = before.length === 0 ? 0 : Infinity;
      for (const one of before) {
        const way = price(i - 1, one.taking.after, option.taking.before);
        if (one.cost + way < least - 1e-9) {
          least = one.cost + way;
          option.by = one;
        }
      }
      option.cost = least + takingPrice(option.taking);
    }
    before = options;
  }
  let best = before.reduce<Option | undefined>((a, b) => (a && a.cost <= b.cost + 1e-7 ? a : b), undefined);
  const moved: number[] = [];
  for (let i = Math.min(last + 1, ranks.length - 1); best && i >= first; i--, best = best.by) {
    if (i > last) continue;
    if (best.at.some((f, k) => f !== figures[i]?.[k])) {
      figures[i] = [...best.at];
      moved.push(i);
    }
  }
  return moved;
}

/** Figures from here: as they are, then with one or more of them a step up or down: good ones lie aslant of each other. */
function stepsFrom(
  { gate, counts }: Rank,
  here: readonly number[],
  step: number,
  aslant: boolean,
): readonly (readonly number[])[] {
  let all: readonly (readonly number[])[] = [here];
  gate.free.forEach((free, k) => {
    if (!free.between) return;
    const at = here[k] ?? 0;
    const by = (2 * step) / Math.max(1, (counts[k] ?? 1) - 1);
    const tos = [at - by, at + by]
      .map((to) => (free.round === true ? to : Math.max(-1, Math.min(1, to))))
      .filter((to) => to !== at);
    all = [...all, ...(aslant ? all : [here]).flatMap((one) => tos.map((to) => one.with(k, to)))];
  });
  return all;
}
