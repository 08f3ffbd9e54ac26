import type { Runner } from '../runner.ts';
import { betterOf } from './betterOf.ts';
import { quick, refined, thorough, type Chosen } from './refine.ts';
import type { Rank } from './ranks.ts';
import type { Box } from './solids.ts';
import type { Route, Stretch } from './stretch.ts';

/** Gates this many places from a change are refined anew. */
const besides = [-2, -1, 0, 1, 2] as const;

/** What is known when a line is about to be refined. */
interface Found {
  /** What stood when it was found last; `hasty`: gates that were refined only quickly since all care was last taken. */
  readonly before: {
    readonly runner: Runner;
    readonly stretches: readonly Stretch[];
    readonly hasty: Set<number>;
  };
  readonly ranks: readonly Rank[];
  readonly stretches: readonly Stretch[];
  readonly fresh: ReadonlySet<number>;
  readonly changed: readonly Box[];
  /** Gates beside what has changed. */
  readonly moved: ReadonlySet<number>;
  /** The grid's choice at each gate, and where refinement ended before. */
  readonly grid: readonly (readonly number[])[];
  readonly ended: readonly (readonly number[] | undefined)[];
  readonly last: Chosen | undefined;
}

/** From where the line was, or from the grid's choices where those are better now. */
export function quickly(found: Found): Chosen {
  const { before, ranks, stretches, fresh, changed, moved, grid, ended, last } = found;

  const begin = betterOf(ranks, stretches, (i) => {
    const [one, other] = [ended[i], grid[i] ?? []];
    return one === undefined ? [other] : moved.has(i) ? [one, other] : [one];
  });
  const known = new Map<number, Route>();
  stretches.forEach((stretch, i) => {
    const route = last?.routes[i];
    const same = begin[i] === last?.figures[i] && begin[i + 1] === last?.figures[i + 1];
    if (!route || !same || fresh.has(i) || before.stretches[i] !== stretch) return;
    if (!reached(route, changed, before.runner.besideWing)) known.set(i, route);
  });
  const chosen = refined(ranks, stretches, begin, moved, quick, known);
  for (const i of [...moved, ...chosen.drawnAlong]) before.hasty.add(i);
  return chosen;
}

/**
 * Twice, since refinement ends in the nearest hollow: from the grid's choices, and from where it ended before or with
 * longer steps.
 */
export function carefully({ before, ranks, stretches, moved, grid, ended, last }: Found): Chosen {
  const near = [...moved, ...before.hasty].flatMap((i) => besides.map((k) => i + k));
  const open = new Set(near.filter((i) => ranks[i] !== undefined));
  // What was drawn along last time goes back to the grid's choice, so that a line does not hang on how it came about.
  for (const i of last?.drawnAlong ?? []) open.add(i);
  const begin = grid.map((figures, i) => (open.has(i) ? undefined : ended[i]) ?? figures);
  const again = grid.map((figures, i) => ended[i] ?? figures);
  before.hasty.clear();
  return quicker(
    refined(ranks, stretches, begin, open, thorough),
    refined(ranks, stretches, again, open, last ? thorough : { ...thorough, firstStep: 1 }),
  );
}

/** True where a box that came or went lies within reach of a route. */
const reached = ({ ways }: Route, changed: readonly Box[], gap: number): boolean =>
  ways.some(({ from, to, lookedAt, length }) =>
    changed.some(
      (box) =>
        Math.hypot(from.x - box.x, from.y - box.y) + Math.hypot(to.x - box.x, to.y - box.y) <=
        Math.max(lookedAt, length) + 2 * (box.reach + gap),
    ),
  );

/** So much quicker, seconds, a second answer must be to stand for the first. */
const quickerBy = 1e-6;

const quicker = (one: Chosen, two: Chosen): Chosen => (two.seconds < one.seconds - quickerBy ? two : one);
