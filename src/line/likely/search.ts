import type { Facing } from '../dubins.ts';
import type { Gate, Taking } from './gates.ts';
import { gridOf } from './gates.ts';
import type { Box } from './solids.ts';
import { blockedPrice, priceOf, stretchOf, type Stretch } from './stretch.ts';
import { terrainOf, type Terrain } from './ways.ts';

/** A gate with the takings that stand in its grid. */
export interface Rank {
  readonly gate: Gate;
  readonly figures: readonly (readonly number[])[];
  readonly takings: readonly Taking[];
}

export function rankOf(gate: Gate, counts?: readonly number[]): Rank {
  const figures = gridOf(gate, counts);
  return { gate, figures, takings: figures.map((f) => gate.taking(f)) };
}

/** What a taking itself costs. */
export const takingPrice = (t: Taking): number =>
  t.seconds + t.leadSeconds[0] + t.leadSeconds[1] + (t.clear ? 0 : blockedPrice);

/** The stretch between two ranks, with only the equipment that can matter there. */
export function stretchBetween(terrain: Terrain, from: Rank, to: Rank): Stretch {
  const some = (all: readonly Facing[]): Facing[] => {
    const picked = [all[0], all[all.length >> 1], all.at(-1)].filter((f) => f !== undefined);
    return [...new Set(picked)];
  };
  const outs = some(from.takings.map((t) => t.after));
  const ins = some(to.takings.map((t) => t.before));
  const samples = outs.flatMap((a) => ins.map((b): readonly [Facing, Facing] => [a, b]));
  const local = terrainOf(terrain.runner, nearTo(terrain, samples), terrain.radii);
  return stretchOf(local, from.gate.speedOut, to.gate.speedIn, samples);
}

/** The equipment within reach of any way from here to there that is worth looking at. */
function nearTo({ runner, boxes }: Terrain, samples: readonly (readonly [Facing, Facing])[]): readonly Box[] {
  const detour = 4 * Math.PI * runner.leastRadius + 6;
  const far = Math.max(0, ...samples.map(([a, b]) => Math.hypot(b.x - a.x, b.y - a.y))) + detour;
  return boxes.filter((box) =>
    samples.some(
      ([a, b]) =>
        Math.hypot(a.x - box.x, a.y - box.y) + Math.hypot(b.x - box.x, b.y - box.y) <= far + 2 * box.reach,
    ),
  );
}

/** The quickest choice of a taking for each rank: the plain dynamic programme (Bellman 1957) over all of them. */
export function quickest(ranks: readonly Rank[], stretches: readonly Stretch[]): readonly number[] {
  let costs = ranks[0]?.takings.map(takingPrice) ?? [];
  const from: number[][] = [];
  ranks.slice(1).forEach((rank, i) => {
    const before = ranks[i];
    const stretch = stretches[i];
    if (!before || !stretch) return;
    const back: number[] = [];
    const memo = new Map<Facing, Map<Facing, number>>();
    const price = (a: Facing, b: Facing): number => {
      const row = memo.get(a) ?? new Map<Facing, number>();
      memo.set(a, row);
      const known = row.get(b) ?? priceOf(stretch.route(a, b));
      row.set(b, known);
      return known;
    };
    costs = rank.takings.map((taking) => {
      let best = Infinity;
      let by = 0;
      before.takings.forEach((b, j) => {
        const sum = (costs[j] ?? Infinity) + price(b.after, taking.before);
        if (sum < best) {
          best = sum;
          by = j;
        }
      });
      back.push(by);
      return best + takingPrice(taking);
    });
    from.push(back);
  });
  let at = costs.indexOf(Math.min(...costs));
  const chosen = [at];
  for (const back of from.toReversed()) {
    at = back[at] ?? 0;
    chosen.unshift(at);
  }
  return chosen;
}
