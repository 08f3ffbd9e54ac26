import type { Way } from './ways.ts';

/** What a search from one facing over corners to another goes by: at least, and once asked for, exactly. */
export interface CornerGraph {
  readonly count: number;
  /** Seconds that no way undercuts: away to a corner, from corner to corner, home from a corner. */
  readonly awayAtLeast: (corner: number) => number;
  readonly betweenAtLeast: (corner: number, next: number) => number;
  readonly homeAtLeast: (corner: number) => number;
  /** The ways themselves, looked for when they are needed. */
  readonly away: (corner: number) => Way;
  readonly between: (corner: number, next: number) => Way;
  readonly home: (corner: number) => Way;
}

/** A step of the search that is still open: to a corner, or home where the corner is the count of them. */
interface Open {
  readonly corner: number;
  readonly by: number;
  /** From the beginning to where this step begins. */
  readonly gone: number;
  /** The way of this step, once it has been looked for. */
  readonly way: Way | undefined;
  /** From the beginning to there, and from there home at least. */
  readonly atLeast: number;
}

/** The corners of the quickest way over at least one, in order, and its seconds. */
interface RoundWay {
  readonly corners: readonly number[];
  readonly seconds: number;
}

/**
 * The quickest clear way over one corner or more: A* (Hart, Nilsson and Raphael 1968) in which a way is looked for only
 * when what it takes at least is the least of all that is open, as most ways never are.
 * @param most seconds; what is no quicker is of no use
 */
export function quickestRound(graph: CornerGraph, most: number): RoundWay | undefined {
  const { count } = graph;
  const rest = Float64Array.from({ length: count }, (_, i) => graph.homeAtLeast(i));
  const by = new Int32Array(count).fill(-2);
  const open: Open[] = [];
  const push = (one: Open): void => {
    if (one.atLeast < most) open.push(one);
  };
  for (let i = 0; i < count; i++) {
    push({ corner: i, by: -1, gone: 0, way: undefined, atLeast: graph.awayAtLeast(i) + (rest[i] ?? 0) });
  }
  for (;;) {
    const one = leastOf(open);
    if (!one) return undefined;
    const { corner } = one;
    const isHome = corner === count;
    if (!isHome && (by[corner] ?? 0) > -2) continue;
    const way =
      one.way ??
      (isHome ? graph.home(one.by) : one.by < 0 ? graph.away(corner) : graph.between(one.by, corner));
    if (!way.clear) continue;
    const there = one.gone + way.seconds;
    if (!one.way) {
      push({ ...one, way, atLeast: there + (isHome ? 0 : (rest[corner] ?? 0)) });
      continue;
    }
    if (isHome) {
      const corners: number[] = [];
      for (let at = one.by; at >= 0; at = by[at] ?? -1) corners.unshift(at);
      return { corners, seconds: there };
    }
    by[corner] = one.by;
    push({ corner: count, by: corner, gone: there, way: undefined, atLeast: there + (rest[corner] ?? 0) });
    for (let next = 0; next < count; next++) {
      if ((by[next] ?? 0) > -2) continue;
      const atLeast = there + graph.betweenAtLeast(corner, next) + (rest[next] ?? 0);
      push({ corner: next, by: corner, gone: there, way: undefined, atLeast });
    }
  }
}

/** Takes out what is least. */
function leastOf(open: Open[]): Open | undefined {
  let best = 0;
  for (let i = 1; i < open.length; i++) if ((open[i]?.atLeast ?? 0) < (open[best]?.atLeast ?? 0)) best = i;
  const one = open[best];
  const last = open.pop();
  if (last && last !== one) open[best] = last;
  return one;
}
