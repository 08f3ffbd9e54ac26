import type { Facing } from '../dubins.ts';
import { cornersOf } from './corners.ts';
import { roundingSpeed } from './pace.ts';
import { toBox, type Box } from './solids.ts';
import type { Route } from './stretch.ts';
import { wayBetween, type Terrain, type Way } from './ways.ts';

/** Ways round the corners of what stands between two gates. */
export interface Corners {
  readonly route: (from: Facing, to: Facing) => Route | undefined;
  /** Seconds of that route; Infinity where there is none. */
  readonly price: (from: Facing, to: Facing) => number;
  /** True where boxes that came or went may have changed what was found. */
  readonly touchedBy: (changed: readonly Box[], gap: number) => boolean;
  /** The ground as it is now, where nothing that was found has changed. */
  readonly stands: (terrain: Terrain) => void;
}

/** At most so many pieces are gone round on one stretch. */
const mostPieces = 4;

/**
 * The quickest ways round the corners of what stands between two gates, each corner run at `roundingSpeed`. The corners
 * are those of what the samples' ways come too near to, and of what stands between the samples and those corners,
 * so that what is found does not depend on what was asked before.
 */
export function cornersBetween(
  ground: Terrain,
  speedFrom: number,
  speedTo: number,
  samples: readonly (readonly [Facing, Facing])[],
): Corners {
  let terrain = rough(ground);
  const gap = terrain.runner.besideWing;
  const speed = roundingSpeed(terrain.runner);
  /** Ellipses within which anything that was found lies: both foci and the longest way. */
  const looked: number[] = [];
  const way = (a: Facing, b: Facing, from: number, to: number): Way => {
    const w = wayBetween(terrain, a, b, from, to);
    looked.push(a.x, a.y, b.x, b.y, w.lookedAt);
    return w;
  };
  const owners = new Set<string>();
  const note = ({ hit }: Way): void => {
    if (hit && owners.size < mostPieces) owners.add(hit.owner);
  };
  const facings = (): readonly Facing[] =>
    [...owners].flatMap((owner) => {
      const piece = terrain.boxes.filter((b) => b.owner === owner);
      const corners = cornersOf(piece, gap);
      for (const { x, y } of corners) looked.push(x, y, x, y, 0);
      return corners.filter((c) => isFree(terrain.boxes, c, gap));
    });
  for (const [from, to] of samples) note(way(from, to, speedFrom, speedTo));
  const [first] = samples;
  const middle = samples[samples.length >> 1];
  for (const corner of facings()) {
    for (const pair of [first, middle]) {
      if (!pair) continue;
      note(way(pair[0], corner, speedFrom, speed));
      note(way(corner, pair[1], speed, speedTo));
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
  const { cost, next } = quickestBetween(between);
  const away = new WeakMap<Facing, Away>();
  const home = new WeakMap<Facing, readonly Way[]>();
  const waysAway = (from: Facing): Away => {
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
  /** The last corner of the quickest route, and its seconds. */
  const best = (from: Facing, to: Facing): readonly [number, number] => {
    const { far } = waysAway(from);
    let corner = -1;
    let least = Infinity;
    waysHome(to).forEach((w, i) => {
      const sum = (far[i] ?? Infinity) + w.seconds;
      if (w.clear && sum < least) {
        least = sum;
        corner = i;
      }
    });
    return [corner, least];
  };
  return {
    price: (from, to) => best(from, to)[1],
    route: (from, to) => {
      const [corner, seconds] = best(from, to);
      const begun = waysAway(from);
      let at = begun.by[corner] ?? -1;
      const begin = begun.ways[at];
      const end = waysHome(to)[corner];
      if (!begin || !end) return undefined;
      const ways = [begin];
      while (at !== corner) {
        const step = next[at]?.[corner] ?? corner;
        const w = between[at]?.[step];
        if (!w) return undefined;
        ways.push(w);
        at = step;
      }
      return { ways: [...ways, end], seconds, clear: true };
    },
    touchedBy: (changed, beside) =>
      changed.some((box) => {
        const near = 2 * (box.reach + beside);
        for (let i = 0; i < looked.length; i += 5) {
          const [ax = 0, ay = 0, bx = 0, by = 0, length = 0] = [
            looked[i],
            looked[i + 1],
            looked[i + 2],
            looked[i + 3],
            looked[i + 4],
          ];
          const a = Math.sqrt((ax - box.x) * (ax - box.x) + (ay - box.y) * (ay - box.y));
          const b = Math.sqrt((bx - box.x) * (bx - box.x) + (by - box.y) * (by - box.y));
          if (a + b <= length + near) return true;
        }
        return false;
      }),
    stands: (now) => {
      terrain = rough(now);
    },
  };
}

/** Round corners fewer radii and tries do: the turns are short, and what is blocked is gone round another way. */
const rough = (terrain: Terrain): Terrain => ({
  ...terrain,
  radii: terrain.radii.filter((_, i, all) => i % 2 === 0 || i === all.length - 1),
  tries: 4,
  halvings: 0,
});

interface Away {
  readonly ways: readonly Way[];
  /** Seconds to each corner, the quickest way, and the corner that it goes round first. */
  readonly far: Float64Array;
  readonly by: Int32Array;
}

const isFree = (boxes: readonly Box[], at: Facing, gap: number): boolean =>
  boxes.every((b) => toBox(b, at.x, at.y) >= gap);

/** The quickest ways from corner to corner and the next corner on each (Floyd 1962). */
function quickestBetween(between: readonly (readonly (Way | undefined)[])[]): {
  readonly cost: readonly (readonly number[])[];
  readonly next: readonly (readonly number[])[];
} {
  const n = between.length;
  const cost = between.map((row, i) => row.map((w, k) => (i === k ? 0 : (w?.seconds ?? Infinity))));
  const next = between.map((row) => row.map((_, k) => k));
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
  return { cost, next };
}
