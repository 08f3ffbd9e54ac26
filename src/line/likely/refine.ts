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

/** How carefully a line is refined. */
export interface Care {
  /** The first step that a figure is moved by, as a share of its grid's. */
  readonly firstStep: number;
  /** Each step over the next. */
  readonly narrowing: number;
  /** Whether figures of one gate go together with one of them held too, or only all of them at once. */
  readonly someTogether: boolean;
  /** Whether long steps are priced by any way, not only by ways like those that are run now. */
  readonly anyWay: boolean;
}

/** With all care: nothing waits for it. */
export const thorough: Care = { firstStep: 1 / 2, narrowing: 2, someTogether: true, anyWay: true };
/** With a tenth of the work, while a hand is moving; what is left is about a tenth of a percent of the run. */
export const quick: Care = {
  firstStep: 1 / 2,
  narrowing: Math.sqrt(8),
  someTogether: false,
  anyWay: false,
};

/** The last step, as a share of the grid's, and the least of the long ones. */
const lastStep = 1 / 16;
const longFrom = 1 / 2;
/** So many times a step is taken at the most before it is halved. */
const mostMoves = 8;

/**
 * Moves the figures of the gates between those of their grids for as long as the run gets quicker: each may stay or go a
 * step up or down, and all are decided at once by dynamic programming over these few (discrete differential dynamic
 * programming, Heidari and others 1971); where all stay, figures of one gate go together, aslant of the grid; then the
 * step is made shorter. A gate is left alone until one beside it moves. Short steps are priced by ways like those that are
 * run now, which is much cheaper.
 * @param open gates to begin with
 * @param known routes that are known for the figures to begin with, by stretch
 */
export function refined(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  begin: readonly (readonly number[])[],
  open: ReadonlySet<number>,
  care: Care,
  known: ReadonlyMap<number, Route> = new Map(),
): Chosen {
  const figures = [...begin];
  const taken = ranks.map(() => new Map<string, Taking>());
  const takingAt = (i: number, at: readonly number[]): Taking | undefined => {
    const key = at.join(' ');
    const taking = taken[i]?.get(key) ?? ranks[i]?.gate.taking(at);
    if (taking) taken[i]?.set(key, taking);
    return taking;
  };
  /** The quickest route there is now, or the one like that of before where the search finds none as quick. */
  const routeNow = (i: number, before?: Route): Route => {
    const [a, b] = [takingAt(i, figures[i] ?? []), takingAt(i + 1, figures[i + 1] ?? [])];
    const stretch = stretches[i];
    if (!a || !b || !stretch) return { ways: [], seconds: 0, clear: true };
    const found = stretch.route(a.after, b.before);
    const like = before && stretch.routeLike(before, a.after, b.before);
    return like && (!found.clear || like.seconds < found.seconds) ? like : found;
  };
  const routes = stretches.map((_, i) => known.get(i) ?? routeNow(i));
  const newPrice = (i: number, from: Facing, to: Facing): number => {
    const route = routes[i];
    const stretch = stretches[i];
    if (!route || !stretch) return 0;
    return anyWay ? stretch.priceBetween(from, to) : stretch.priceLike(route, from, to);
  };
  /** Whether any way between two facings is priced, or only those like the way that is run now. */
  let anyWay = care.anyWay;
  const prices = stretches.map(() => new Map<Facing, Map<Facing, number>>());
  const price = (i: number, from: Facing, to: Facing): number => {
    const row = prices[i]?.get(from) ?? new Map<Facing, number>();
    prices[i]?.set(from, row);
    const price = row.get(to) ?? newPrice(i, from, to);
    row.set(to, price);
    return price;
  };
  const touched = new Set(open);
  const drawnAlong = new Set<number>();
  for (let step = care.firstStep; step >= lastStep * 0.99; step /= care.narrowing) {
    for (const aslant of [false, true]) {
      anyWay = care.anyWay && !aslant && step >= longFrom;
      for (const p of prices) p.clear();
      const ways = !aslant ? alone : care.someTogether ? together : allAtOnce;
      let now: ReadonlySet<number> = new Set(touched);
      for (let move = 0; move < mostMoves && now.size > 0; move++) {
        const moved = new Set<number>();
        for (const [first, last] of runsOf(now)) {
          for (const i of moveRun(first, last, ranks, figures, takingAt, price, ways, step)) {
            moved.add(i);
            if (!open.has(i)) drawnAlong.add(i);
          }
        }
        for (const i of new Set([...moved].flatMap((i) => [i - 1, i]))) {
          if (!stretches[i]) continue;
          routes[i] = routeNow(i, routes[i]);
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
  figures: (readonly number[])[],
  takingAt: (i: number, at: readonly number[]) => Taking | undefined,
  price: (stretch: number, from: Facing, to: Facing) => number,
  ways: Ways,
  step: number,
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
        : stepsFrom(rank, figures[i] ?? [], ways, step).flatMap((at): Option[] => {
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
      figures[i] = best.at;
      moved.push(i);
    }
  }
  return moved;
}

/** Where figures may go from where they are: each one's own ways up and down to those of all of them. */
type Ways = (
  here: readonly number[],
  steps: readonly (readonly [figure: number, tos: readonly number[]])[],
) => readonly (readonly number[])[];

const alone: Ways = (here, steps) => [
  here,
  ...steps.flatMap(([k, tos]) => tos.map((to) => here.with(k, to))),
];
const together: Ways = (here, steps) =>
  steps.reduce<readonly (readonly number[])[]>(
    (all, [k, tos]) => [...all, ...all.flatMap((one) => tos.map((to) => one.with(k, to)))],
    [here],
  );
const allAtOnce: Ways = (here, steps) =>
  steps.length < 2
    ? [here]
    : [
        here,
        ...steps.reduce<readonly (readonly number[])[]>(
          (all, [k, tos]) => all.flatMap((one) => tos.map((to) => one.with(k, to))),
          [here],
        ),
      ];

/** Figures from here, as they are and moved by a step. */
function stepsFrom(
  { gate, counts }: Rank,
  here: readonly number[],
  ways: Ways,
  step: number,
): readonly (readonly number[])[] {
  const steps = gate.free.flatMap((free, k): (readonly [number, readonly number[]])[] => {
    if (!free.between) return [];
    const at = here[k] ?? 0;
    const by = (2 * step) / Math.max(1, (counts[k] ?? 1) - 1);
    const tos = [at - by, at + by]
      .map((to) => (free.round === true ? to : Math.max(-1, Math.min(1, to))))
      .filter((to) => to !== at);
    return [[k, tos]];
  });
  return ways(here, steps);
}
