import type { Course, Obstacle, Step } from '../../course/course.ts';
import type { GroundPoint } from '../../course/points.ts';
import { drawnSteps, type DrawnStep } from '../../course/sequence.ts';
import type { LikelyLine, LineWish } from '../line.ts';
import type { Runner } from '../runner.ts';
import { lineFrom } from './assemble.ts';
import { finishGate, startGate } from './ends.ts';
import { gatesOf } from './numberGates.ts';
import { rankNow, rankOf, touchedBy, type Rank } from './ranks.ts';
import { carefully, quickly } from './fromBefore.ts';
import { quick, refined, thorough, type Care, type Chosen } from './refine.ts';
import { quickestBounded, quickestOfAll } from './search.ts';
import { solidsOf, type Box, type Solids } from './solids.ts';
import { stretchBetween, type Stretch } from './stretch.ts';
import { terrainOf } from './ways.ts';

/** Works lines out one after another, and keeps what a change of the course does not touch. */
export interface LineSession {
  /** As `likelyLine`, found again and again while a hand moves something. */
  readonly line: (course: Course, wish: LineWish) => LikelyLine | null;
  /** The same with all care, once the hand rests: what `line` left is made up for, wherever it has been since. */
  readonly settled: (course: Course, wish: LineWish) => LikelyLine | null;
}

/**
 * How a session searches: `near`: from coarse to fine, with all that it kept; `all`: over all takings of the grids, each
 * time from scratch; `grid`: the same, and nothing between the grids' takings (the plain programme that benches measure by).
 */
export type Thoroughness = 'near' | 'all' | 'grid';

/** Fewer numbers than this make no line. */
const leastNumbers = 2;

/** What a session remembers of one number. */
interface KeptNumber {
  readonly obstacle: Obstacle;
  readonly step: Step;
  readonly landing: GroundPoint | undefined;
  ranks: readonly Rank[];
}

interface Kept {
  readonly runner: Runner;
  readonly centred: boolean;
  readonly solids: Solids;
  readonly pieces: Map<string, Obstacle>;
  numbers: readonly KeptNumber[];
  ends: ReadonlyMap<string, Rank>;
  ranks: readonly Rank[];
  stretches: readonly Stretch[];
  picked: readonly number[];
  chosen: Chosen | undefined;
  /** How often the line was found while a hand moved. */
  moves: number;
  /** Gates that were refined only quickly since all care was last taken. */
  readonly hasty: Set<number>;
}

/**
 * A session for one course that is worked on: while a piece is dragged, gates and ways that it does not touch are kept
 * with what they cost, and the line is refined from where it was. Lines agree with those worked out from scratch but
 * for what quick refinement leaves (measured by the bench).
 */
export function createLineSession(thoroughness: Thoroughness = 'near'): LineSession {
  let kept: Kept | undefined;
  const found = (course: Course, wish: LineWish, care: Care): LikelyLine | null => {
    if (thoroughness !== 'near' || !kept || !sameRunner(kept, wish)) kept = newKept(wish);
    return lineOf(kept, course, wish, thoroughness, care);
  };
  return {
    line: (course, wish) => found(course, wish, quick),
    settled: (course, wish) => found(course, wish, thorough),
  };
}

const newKept = ({ runner, centred }: LineWish): Kept => ({
  runner,
  centred: centred === true,
  solids: { boxes: [] },
  pieces: new Map(),
  numbers: [],
  ends: new Map(),
  ranks: [],
  stretches: [],
  picked: [],
  chosen: undefined,
  moves: 0,
  hasty: new Set(),
});

const sameRunner = (kept: Kept, { runner, centred }: LineWish): boolean =>
  kept.centred === (centred === true) && JSON.stringify(kept.runner) === JSON.stringify(runner);

function lineOf(
  kept: Kept,
  course: Course,
  wish: LineWish,
  thoroughness: Thoroughness,
  care: Care,
): LikelyLine | null {
  const worked = withKnown(kept, course);
  const drawn = drawnSteps(worked);
  const [first] = drawn;
  if (!first || drawn.length < leastNumbers) return null;
  const changed = moveSolids(kept, worked.obstacles);
  const numbers = drawn.map((d, i) => numberOf(kept, d, i, wish, changed));
  const ranks = withEnds(
    kept,
    course,
    first,
    wish,
    numbers.flatMap((n) => n.ranks),
  );
  const terrain = terrainOf(kept.runner, kept.solids.boxes);
  const before = new Map(kept.stretches.map((s) => [s.from, s]));
  /** Stretches that are others than they were. */
  const fresh = new Set<number>();
  const stretches = ranks.slice(1).flatMap((to, i) => {
    const from = ranks[i];
    if (!from) return [];
    const known = before.get(from);
    if (known?.to === to) {
      if (changed.length > 0 && known.stands(kept.solids.boxes, changed)) fresh.add(i);
      return [known];
    }
    fresh.add(i);
    return [stretchBetween(terrain, from, to)];
  });
  const fits =
    ranks.length === kept.picked.length && ranks.every((r, i) => (kept.picked[i] ?? 0) < r.takings.length);
  const picked =
    thoroughness !== 'near'
      ? quickestOfAll(ranks, stretches)
      : quickestBounded(
          ranks,
          stretches,
          fits ? kept.picked : undefined,
          care === quick ? kept.moves++ : undefined,
        );
  // Refinement begins near what has changed.
  const moved = new Set([...fresh].flatMap((i) => [i, i + 1]));
  const grid = ranks.map((rank, i) => rank.figures[picked[i] ?? 0] ?? []);
  const last = ranks.length === kept.ranks.length ? kept.chosen : undefined;
  const ended = ranks.map((rank, i) => {
    const figures = last?.figures[i];
    if (figures?.length === rank.gate.free.length && kept.picked[i] === picked[i]) return figures;
    moved.add(i);
    return figures?.length === rank.gate.free.length ? figures : undefined;
  });
  const found = { ...{ ranks, stretches, fresh, changed, moved, grid, ended, last }, before: kept };
  const chosen =
    thoroughness === 'grid'
      ? refined(ranks, stretches, grid, new Set(), thorough)
      : last && care === quick
        ? quickly(found)
        : carefully(found);
  Object.assign(kept, { numbers, ranks, stretches, picked, chosen });
  return lineFrom(
    ranks.map((r) => r.gate),
    drawn,
    chosen,
  );
}

/** The course with the pieces that are known already where they have not changed, so that they are known again. */
function withKnown(kept: Kept, course: Course): Course {
  const obstacles = course.obstacles.map((o) => {
    const known = kept.pieces.get(o.id);
    if (known && (known === o || samePiece(known, o))) return known;
    kept.pieces.set(o.id, o);
    return o;
  });
  return { ...course, obstacles };
}

const samePiece = (a: Obstacle, b: Obstacle): boolean =>
  a.kind === b.kind &&
  JSON.stringify(a.stand) === JSON.stringify(b.stand) &&
  JSON.stringify(a.sizes) === JSON.stringify(b.sizes);

/** Takes over the equipment as it stands now. @returns what came and what went */
function moveSolids(kept: Kept, obstacles: readonly Obstacle[]): readonly Box[] {
  const boxes = solidsOf(obstacles);
  const before = new Set(kept.solids.boxes);
  const now = new Set(boxes);
  const changed = [...boxes.filter((b) => !before.has(b)), ...kept.solids.boxes.filter((b) => !now.has(b))];
  kept.solids.boxes = boxes;
  return changed;
}

function numberOf(
  kept: Kept,
  drawn: DrawnStep,
  i: number,
  wish: LineWish,
  changed: readonly Box[],
): KeptNumber {
  const landing = wish.landings?.get(drawn.step.number);
  const known = kept.numbers[i];
  if (
    known?.obstacle === drawn.obstacle &&
    known.landing?.x === landing?.x &&
    known.landing?.y === landing?.y &&
    sameStep(known.step, drawn.step)
  ) {
    const gap = kept.runner.besideWing;
    known.ranks = known.ranks.map((rank) => (touchedBy(rank, changed, gap) ? rankNow(rank) : rank));
    return known;
  }
  const gates = gatesOf(drawn, i, {
    runner: kept.runner,
    solids: kept.solids,
    centred: kept.centred,
    landing,
    owner: drawn.obstacle.id,
  });
  return { obstacle: drawn.obstacle, step: drawn.step, landing, ranks: gates.map((gate) => rankOf(gate)) };
}

const sameStep = (a: Step, b: Step): boolean =>
  a === b ||
  (a.number === b.number && a.direction === b.direction && a.backside === b.backside && a.wrap === b.wrap);

/** The ranks of the numbers between those of the start and the finish. */
function withEnds(
  kept: Kept,
  course: Course,
  first: DrawnStep,
  wish: LineWish,
  ranks: readonly Rank[],
): readonly Rank[] {
  const ends = new Map<string, Rank>();
  const [start, finish] = [
    startGate(course, first, wish, kept.solids),
    finishGate(course, wish, kept.centred),
  ].map((gate, i) => {
    const spots = [-1, 1].map((f) => [gate.taking([f]).entry, gate.taking([f]).clear]);
    const key = `${i} ${JSON.stringify(spots)}`;
    const rank = kept.ends.get(key) ?? rankOf(gate);
    ends.set(key, rank);
    return rank;
  });
  kept.ends = ends;
  return [...(start ? [start] : []), ...ranks, ...(finish ? [finish] : [])];
}
