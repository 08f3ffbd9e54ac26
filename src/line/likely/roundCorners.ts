import type { Facing } from '../dubins.ts';
import { leastSeconds } from './atLeast.ts';
import { cornersOf } from './corners.ts';
import { quickestRound, type CornerGraph } from './cornerSearch.ts';
import { roundingSpeed } from './pace.ts';
import { toBox, type Box } from './solids.ts';
import type { Route } from './stretch.ts';
import { wayBetween, type Terrain, type Way } from './ways.ts';

/** Ways round the corners of what stands between two gates. */
export interface Corners {
  readonly route: (from: Facing, to: Facing) => Route | undefined;
  /** Seconds of that route; Infinity where there is none, or none that takes less than `most`. */
  readonly price: (from: Facing, to: Facing, most?: number) => number;
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
  const atLeast = {
    away: leastSeconds(terrain, speedFrom, speed),
    between: leastSeconds(terrain, speed, speed),
    home: leastSeconds(terrain, speed, speedTo),
  };
  const between: Legs = {
    atLeast: Float64Array.from(nodes.flatMap((a) => nodes.map((b) => atLeast.between(a, b)))),
    ways: [],
  };
  const away = new WeakMap<Facing, Legs>();
  const home = new WeakMap<Facing, Legs>();
  const graphOf = (from: Facing, to: Facing): CornerGraph => {
    const out = away.get(from) ?? legsOf(nodes, (node) => atLeast.away(from, node));
    away.set(from, out);
    const back = home.get(to) ?? legsOf(nodes, (node) => atLeast.home(node, to));
    home.set(to, back);
    const at = (i: number): Facing => nodes[i] ?? from;
    return {
      count: nodes.length,
      awayAtLeast: (i) => out.atLeast[i] ?? 0,
      betweenAtLeast: (i, k) => between.atLeast[i * nodes.length + k] ?? 0,
      homeAtLeast: (i) => back.atLeast[i] ?? 0,
      away: (i) => (out.ways[i] ??= way(from, at(i), speedFrom, speed)),
      between: (i, k) => (between.ways[i * nodes.length + k] ??= way(at(i), at(k), speed, speed)),
      home: (i) => (back.ways[i] ??= way(at(i), to, speed, speedTo)),
    };
  };
  return {
    price: (from, to, most = Infinity) => quickestRound(graphOf(from, to), most)?.seconds ?? Infinity,
    route: (from, to) => {
      const graph = graphOf(from, to);
      const found = quickestRound(graph, Infinity);
      if (!found) return undefined;
      const { corners, seconds } = found;
      const ways = corners.map((corner, i) => {
        const before = corners[i - 1];
        return before === undefined ? graph.away(corner) : graph.between(before, corner);
      });
      return { ways: [...ways, graph.home(corners.at(-1) ?? 0)], seconds, clear: true };
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

/** Ways to or from all corners: what they take at least, and those that were looked for. */
interface Legs {
  readonly atLeast: Float64Array;
  readonly ways: (Way | undefined)[];
}

const legsOf = (nodes: readonly Facing[], atLeast: (node: Facing) => number): Legs => ({
  atLeast: Float64Array.from(nodes, atLeast),
  ways: [],
});

const isFree = (boxes: readonly Box[], at: Facing, gap: number): boolean =>
  boxes.every((b) => toBox(b, at.x, at.y) >= gap);
