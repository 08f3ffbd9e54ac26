import type { Facing } from '../dubins.ts';
import { cornersOf } from './corners.ts';
import { roundingSpeed } from './pace.ts';
import type { Box } from './solids.ts';
import { wayBetween, type Terrain, type Way } from './ways.ts';

/** The way from one gate to the next: one piece, or several round corners. */
export interface Route {
  readonly ways: readonly Way[];
  readonly seconds: number;
  readonly clear: boolean;
}

/** What a blocked way is taken to cost, seconds: more than any way that is clear. */
export const blockedPrice = 60;

/** What the search weighs a route by. */
export const priceOf = (route: Route): number => route.seconds + (route.clear ? 0 : blockedPrice);

/** Finds routes between the facings of two gates. */
export interface Stretch {
  readonly route: (from: Facing, to: Facing) => Route;
}

/** At most so many pieces are gone round on one stretch. */
const mostPieces = 6;

/**
 * Routes from one gate to the next: the quickest way without a corner where it is clear; else the quickest of the clear ones and
 * of those round the corners of whatever is in the way, each corner run at `roundingSpeed`. The corners are chosen
 * once, from samples of where she may come from and go to, so that what is found does not depend on what was asked before.
 */
export function stretchOf(
  terrain: Terrain,
  speedFrom: number,
  speedTo: number,
  samples: readonly (readonly [Facing, Facing])[],
): Stretch {
  let corners: Corners | undefined;
  return {
    route: (from, to) => {
      const direct = wayBetween(terrain, from, to, speedFrom, speedTo);
      if (direct.clear && direct.quickest) return { ways: [direct], seconds: direct.seconds, clear: true };
      corners ??= cornersBetween(terrain, speedFrom, speedTo, samples);
      const round = corners.route(from, to);
      if (round && (!direct.clear || round.seconds < direct.seconds)) return round;
      return { ways: [direct], seconds: direct.seconds, clear: direct.clear };
    },
  };
}

interface Corners {
  readonly route: (from: Facing, to: Facing) => Route | undefined;
}

function cornersBetween(
  terrain: Terrain,
  speedFrom: number,
  speedTo: number,
  samples: readonly (readonly [Facing, Facing])[],
): Corners {
  const gap = terrain.runner.besideWing;
  const speed = roundingSpeed(terrain.runner);
  const owners = new Set<number>();
  const note = (box: Box | undefined): void => {
    if (box && owners.size < mostPieces) owners.add(box.owner);
  };
  const facingsOf = (owner: number): readonly Facing[] =>
    cornersOf(
      terrain.boxes.filter((b) => b.owner === owner),
      terrain.boxes,
      gap,
    );
  const facings = (): readonly Facing[] => [...owners].flatMap(facingsOf);
  const way = (a: Facing, b: Facing, from: number, to: number): Way => wayBetween(terrain, a, b, from, to);
  for (const [from, to] of samples) note(way(from, to, speedFrom, speedTo).hit);
  // What stands between the ends and those corners may have to be gone round as well.
  for (const corner of facings()) {
    for (const [from, to] of samples) {
      note(way(from, corner, speedFrom, speed).hit);
      note(way(corner, to, speed, speedTo).hit);
    }
  }
  const nodes = facings();
  const n = nodes.length;
  const between = nodes.map((a) =>
    nodes.map((b): Way | undefined => {
      if (a === b) return undefined;
      const w = way(a, b, speed, speed);
      return w.clear ? w : undefined;
    }),
  );
  // Shortest ways from corner to corner (Floyd 1962), with the next corner on the way.
  const cost = between.map((row, i) => row.map((w, k) => (i === k ? 0 : (w?.seconds ?? Infinity))));
  const next = nodes.map(() => nodes.map((_, k) => k));
  for (let via = 0; via < n; via++) {
    for (let i = 0; i < n; i++) {
      const first = cost[i]?.[via] ?? Infinity;
      if (first === Infinity) continue;
      for (let k = 0; k < n; k++) {
        const sum = first + (cost[via]?.[k] ?? Infinity);
        const row = cost[i];
        const steps = next[i];
        if (row && steps && sum < (row[k] ?? Infinity) - 1e-12) {
          row[k] = sum;
          steps[k] = steps[via] ?? via;
        }
      }
    }
  }
  const away = new WeakMap<Facing, { ways: readonly Way[]; far: Float64Array; by: Int32Array }>();
  const home = new WeakMap<Facing, readonly Way[]>();
  const waysAway = (from: Facing) => {
    const known = away.get(from);
    if (known) return known;
    const ways = nodes.map((node) => way(from, node, speedFrom, speed));
    const far = new Float64Array(n).fill(Infinity);
    const by = new Int32Array(n).fill(-1);
    ways.forEach((w, i) => {
      if (!w.clear) return;
      for (let k = 0; k < n; k++) {
        const sum = w.seconds + (cost[i]?.[k] ?? Infinity);
        if (sum < (far[k] ?? 0)) {
          far[k] = sum;
          by[k] = i;
        }
      }
    });
    const made = { ways, far, by };
    away.set(from, made);
    return made;
  };
  const waysHome = (to: Facing): readonly Way[] => {
    const known = home.get(to) ?? nodes.map((node) => way(node, to, speed, speedTo));
    home.set(to, known);
    return known;
  };
  return {
    route: (from, to) => {
      if (n === 0) return undefined;
      const first = waysAway(from);
      const last = waysHome(to);
      let best = -1;
      let least = Infinity;
      last.forEach((w, i) => {
        const sum = (first.far[i] ?? Infinity) + w.seconds;
        if (w.clear && sum < least) {
          least = sum;
          best = i;
        }
      });
      if (best < 0) return undefined;
      const ways: Way[] = [];
      let at = first.by[best] ?? -1;
      const begin = first.ways[at];
      const end = last[best];
      if (!begin || !end) return undefined;
      ways.push(begin);
      while (at !== best) {
        const step = next[at]?.[best] ?? best;
        const w = between[at]?.[step];
        if (!w) return undefined;
        ways.push(w);
        at = step;
      }
      ways.push(end);
      return { ways, seconds: least, clear: true };
    },
  };
}
