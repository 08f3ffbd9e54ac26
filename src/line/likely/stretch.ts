import type { Facing } from '../dubins.ts';
import { leastSeconds } from './atLeast.ts';
import { roundingSpeed } from './pace.ts';
import { cornersBetween, type Corners } from './roundCorners.ts';
import type { Rank } from './ranks.ts';
import type { Box } from './solids.ts';
import {
  halvings,
  longestWay,
  look,
  secondsLike,
  seen,
  wayBetween,
  wayLike,
  type Terrain,
  type Way,
} from './ways.ts';

/** The way from one gate to the next: one piece, or several round corners. */
export interface Route {
  readonly ways: readonly Way[];
  readonly seconds: number;
  readonly clear: boolean;
}

/** What a blocked way is taken to cost, seconds: more than any way that is clear. */
export const blockedPrice = 60;

/** Routes between two ranks, and what those between their takings cost, each worked out once. */
export interface Stretch {
  readonly from: Rank;
  readonly to: Rank;
  readonly route: (from: Facing, to: Facing) => Route;
  /**
   * Price from one taking of the first rank to one of the second, by their places in the grids.
   * @param most a price that is no less is of no use: Infinity may stand for it
   */
  readonly price: (taking: number, next: number, most?: number) => number;
  /** No more than that price: the price itself where it is known, else what no way can undercut. */
  readonly bound: (taking: number, next: number) => number;
  readonly priceBetween: (from: Facing, to: Facing) => number;
  /** The price of going like a route from one facing to another, both close to its own. No less than the price of the best. */
  readonly priceLike: (route: Route, from: Facing, to: Facing) => number;
  /** The route that costs `priceLike`; undefined where there is none that is clear. */
  readonly routeLike: (route: Route, from: Facing, to: Facing) => Route | undefined;
  /**
   * Other equipment: what it cannot have changed is kept.
   * @param changed all boxes that came or went
   * @returns false where nothing was within reach of anything that had been found
   */
  readonly stands: (boxes: readonly Box[], changed: readonly Box[]) => boolean;
}

/**
 * Routes from one gate to the next: the quickest way without a corner where it is clear; else the quickest of the clear
 * ones and of those round the corners of whatever is in the way.
 */
export function stretchBetween(whole: Terrain, from: Rank, to: Rank): Stretch {
  const { runner } = whole;
  const speedFrom = from.gate.speedOut;
  const speedTo = to.gate.speedIn;
  const samples = samplesOf(from, to);
  let terrain = { ...whole, boxes: nearTo(whole, samples) };
  let corners: Corners | undefined;
  const width = to.ins.length;
  const prices = new Float64Array(from.outs.length * width).fill(NaN);
  const least = leastSeconds(whole, speedFrom, speedTo);
  const bounds = new Float64Array(prices.length).fill(NaN);
  const boundAt = (u: number, v: number): number => {
    const at = u * width + v;
    const known = bounds[at] ?? 0;
    if (!Number.isNaN(known)) return known;
    const [a, b] = [from.outs[u], to.ins[v]];
    return (bounds[at] = a && b ? least(a, b) : 0);
  };
  const reaches = new Float64Array(from.outs.length * width);
  /** The largest of the reaches. */
  let farthest = 0;
  /** From a rank to a box and on to the next rank at least, metres. */
  const apartAtLeast = (box: Box): number =>
    Math.max(0, Math.hypot(from.x - box.x, from.y - box.y) - from.reach) +
    Math.max(0, Math.hypot(to.x - box.x, to.y - box.y) - to.reach);
  const cornered = new Uint8Array(from.outs.length * width);
  const roundCorners = (): Corners => (corners ??= cornersBetween(terrain, speedFrom, speedTo, samples));
  const settled = (): Terrain => ({ ...terrain, halvings: halvings.settled });
  const route = (a: Facing, b: Facing): Route => {
    const direct = wayBetween(settled(), a, b, speedFrom, speedTo);
    if (!direct.clear || !direct.quickest) {
      const round = roundCorners().route(a, b);
      if (round && (!direct.clear || round.seconds < direct.seconds)) return round;
    }
    return { ways: [direct], seconds: direct.seconds, clear: direct.clear };
  };
  /** Leaves in `seen.lookedAt` and `turnedAside` what the price hangs on. */
  let turnedAside = false;
  const priceBetween = (a: Facing, b: Facing, most = Infinity): number => {
    look(terrain, a, b, speedFrom, speedTo, most);
    turnedAside = !seen.clear || !seen.quickest;
    const price = seen.seconds + (seen.clear ? 0 : blockedPrice);
    if (!turnedAside) return price;
    const { lookedAt, least: open } = seen;
    if (open >= most) return Infinity;
    const round = roundCorners().price(a, b, Math.min(price, most));
    seen.lookedAt = lookedAt;
    seen.least = open;
    return round === Infinity && price >= most ? Infinity : Math.min(price, round);
  };
  return {
    from,
    to,
    route,
    priceBetween,
    priceLike: (known, a, b) => {
      const [first] = known.ways;
      const last = known.ways.at(-1);
      if (!first || !last) return 0;
      if (!known.clear) return priceBetween(a, b);
      if (first === last) return secondsLike(terrain, first, a, b, speedFrom, speedTo);
      const rounding = roundingSpeed(runner);
      const away = secondsLike(terrain, first, a, first.to, speedFrom, rounding);
      const home = secondsLike(terrain, last, last.from, b, rounding, speedTo);
      return away + home + known.ways.slice(1, -1).reduce((sum, w) => sum + w.seconds, 0);
    },
    routeLike: (known, a, b) => {
      const [first] = known.ways;
      const last = known.ways.at(-1);
      if (!first || !last || !known.clear) return undefined;
      const rounding = roundingSpeed(runner);
      const ways =
        first === last
          ? [wayLike(terrain, first, a, b, speedFrom, speedTo)]
          : [
              wayLike(terrain, first, a, first.to, speedFrom, rounding),
              ...known.ways.slice(1, -1),
              wayLike(terrain, last, last.from, b, rounding, speedTo),
            ];
      const found = ways.filter((w) => w !== undefined);
      if (found.length < ways.length) return undefined;
      return { ways: found, seconds: found.reduce((sum, w) => sum + w.seconds, 0), clear: true };
    },
    price: (taking, next, most) => {
      const u = from.outOf[taking] ?? 0;
      const v = to.inOf[next] ?? 0;
      const at = u * width + v;
      const known = prices[at] ?? NaN;
      if (!Number.isNaN(known)) return known;
      const a = from.outs[u];
      const b = to.ins[v];
      if (!a || !b) return Infinity;
      const price = priceBetween(a, b, most);
      // Nothing that comes and goes makes it quicker than it is with nothing in its way.
      bounds[at] = Math.max(boundAt(u, v), seen.least);
      if (price === Infinity) return price;
      reaches[at] = seen.lookedAt;
      farthest = Math.max(farthest, seen.lookedAt);
      cornered[at] = turnedAside ? 1 : 0;
      prices[at] = price;
      return price;
    },
    bound: (taking, next) => {
      const u = from.outOf[taking] ?? 0;
      const v = to.inOf[next] ?? 0;
      const known = prices[u * width + v] ?? NaN;
      return Number.isNaN(known) ? boundAt(u, v) : known;
    },
    stands: (boxes, changed) => {
      terrain = { ...whole, boxes: nearTo({ ...whole, boxes }, samples) };
      const gap = runner.besideWing;
      let touched = false;
      const cornersGone = corners?.touchedBy(changed, gap) === true;
      if (cornersGone) {
        touched = true;
        corners = undefined;
        for (let at = 0; at < prices.length; at++) if (cornered[at] === 1) prices[at] = NaN;
      } else corners?.stands(terrain);
      for (const box of changed) {
        const near = 2 * (box.reach + gap);
        if (farthest < apartAtLeast(box) - near) continue;
        const far = to.ins.map((f) => Math.hypot(f.x - box.x, f.y - box.y));
        from.outs.forEach((f, u) => {
          const first = Math.hypot(f.x - box.x, f.y - box.y) - near;
          for (let v = 0; v < width; v++) {
            const at = u * width + v;
            if ((reaches[at] ?? 0) < first + (far[v] ?? 0)) continue;
            prices[at] = NaN;
            touched = true;
          }
        });
      }
      return touched;
    },
  };
}

/** A few pairs of facings between two ranks: first, middle and last of each. */
function samplesOf(from: Rank, to: Rank): readonly (readonly [Facing, Facing])[] {
  const some = (all: readonly Facing[]): Facing[] => {
    const picked = [all[0], all[all.length >> 1], all.at(-1)].filter((f) => f !== undefined);
    return [...new Set(picked)];
  };
  const ins = some(to.ins);
  return some(from.outs).flatMap((a) => ins.map((b): readonly [Facing, Facing] => [a, b]));
}

/** The equipment within reach of any way between two ranks that is worth looking at. */
function nearTo({ runner, boxes }: Terrain, samples: readonly (readonly [Facing, Facing])[]): readonly Box[] {
  const far =
    longestWay(Math.max(0, ...samples.map(([a, b]) => Math.hypot(b.x - a.x, b.y - a.y))), runner) + 1;
  return boxes.filter((box) =>
    samples.some(
      ([a, b]) =>
        Math.hypot(a.x - box.x, a.y - box.y) + Math.hypot(b.x - box.x, b.y - box.y) <=
        far + 2 * (box.reach + runner.besideWing),
    ),
  );
}
