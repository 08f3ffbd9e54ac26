import { words, type Facing, type Word } from '../dubins.ts';
import type { Runner } from '../runner.ts';
import { laid, layOut, layOutNear } from './candidates.ts';
import { hitOf, measureBoxes } from './obstruction.ts';
import { radiiOf } from './pace.ts';
import type { Box } from './solids.ts';

/** What ways on the ground are looked for in: the dog, the turns she makes, what stands in her way. */
export interface Terrain {
  readonly runner: Runner;
  readonly radii: readonly number[];
  readonly boxes: readonly Box[];
  /** So many ways are held against the equipment before the best of them is called blocked. */
  readonly tries: number;
  /** How closely the best radius of a way is looked for (candidates.ts). */
  readonly halvings: number;
}

const mostTries = 12;
/** So closely that what is left is of no account in a search, and of none at all in the line itself. */
export const halvings = { searched: 3, settled: 7 } as const;

export const terrainOf = (runner: Runner, boxes: readonly Box[], radii = radiiOf(runner)): Terrain => ({
  runner,
  radii,
  boxes,
  tries: mostTries,
  halvings: halvings.searched,
});

/** A way on the ground without a corner. Pieces as in `wordPieces`: turns in radians, a straight in radii. */
export interface Way {
  readonly from: Facing;
  readonly to: Facing;
  readonly word: Word;
  readonly pieces: readonly [number, number, number];
  readonly radius: number;
  readonly length: number;
  readonly seconds: number;
  /** False where it comes too near to something solid. */
  readonly clear: boolean;
  /** True where no much quicker one had to be left for something in its way. */
  readonly quickest: boolean;
  /** What the quickest comes too near to; undefined where it is clear. */
  readonly hit: Box | undefined;
  /** Which free angles it has, as `laid.sides`. */
  readonly sides: number;
  /** The longest that was looked at to find it: what lies outside of that reach cannot change it. */
  readonly lookedAt: number;
}

/** A way that takes so many seconds more than the quickest is not looked at: going round a corner is quicker. */
const worthLooking = 1.5;
/** Going round a corner is not looked at where it could save no more than this, seconds. */
const littleMore = 0.12;
/** So much longer than straight, in least radii and metres, a way is at the most worth looking at. */
const detour = [10, 3] as const;

/** How long a way between two places may be to be looked at, metres. */
export const longestWay = (metres: number, { leastRadius }: Runner): number =>
  metres + detour[0] * leastRadius + detour[1];

const sidesOf = words.map((word): readonly [number, number, number] => {
  const side = (i: number): number => (word[i] === 'L' ? 1 : word[i] === 'R' ? -1 : 0);
  return [side(0), side(1), side(2)];
});

/** What `look` found: plain fields that are written over, since it is asked for hundreds of thousands of times. */
export const seen = {
  seconds: 0,
  /** What the quickest takes, were nothing in its way. */
  least: 0,
  clear: true,
  quickest: true,
  hit: undefined as Box | undefined,
  lookedAt: 0,
  index: -1,
  /** How often it was asked. */
  asked: 0,
};

/**
 * The quickest way from one facing to another among Dubins paths of several radii that keeps clear of all equipment;
 * where none does, the quickest of all, not clear. Leaves what it found in `seen`, and the way itself in `laid`.
 * @param speedFrom m/s at the beginning, `speedTo` at the end
 * @param most a way that takes no less, seconds, is of no use: where there is no other, it takes Infinity
 */
export function look(
  { runner, radii, boxes, tries, halvings }: Terrain,
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
  most = Infinity,
): void {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  layOut(
    runner,
    radii,
    halvings,
    from,
    to,
    speedFrom,
    speedTo,
    longestWay(Math.sqrt(dx * dx + dy * dy), runner),
  );
  const { seconds, count } = laid;
  let first = -1;
  let firstSeconds = Infinity;
  seen.asked++;
  seen.hit = undefined;
  seen.lookedAt = 0;
  if (most < Infinity) {
    let least = Infinity;
    for (let i = 0; i < count; i++) least = Math.min(least, seconds[i] ?? Infinity);
    if (least >= most) {
      seen.seconds = Infinity;
      seen.least = least;
      seen.clear = true;
      seen.quickest = true;
      seen.index = -1;
      return;
    }
  }
  measureBoxes(boxes, from.x, from.y, to.x, to.y, runner.besideWing);
  for (let tried = 0; tried < tries; tried++) {
    let best = -1;
    let least = Infinity;
    for (let i = 0; i < count; i++) {
      const s = seconds[i] ?? Infinity;
      if (s < least) {
        least = s;
        best = i;
      }
    }
    if (best < 0 || (first >= 0 && least > firstSeconds + worthLooking)) break;
    seen.lookedAt = Math.max(seen.lookedAt, laid.length[best] ?? 0);
    const hit = hitOfLaid(boxes, from, best);
    if (!hit) {
      seen.seconds = least;
      seen.least = Math.min(least, firstSeconds);
      seen.clear = true;
      seen.quickest = least <= firstSeconds + littleMore;
      seen.index = best;
      return;
    }
    if (first < 0) {
      first = best;
      firstSeconds = least;
      seen.hit = hit;
    }
    seconds[best] = Infinity;
  }
  seen.seconds = first < 0 ? 0 : firstSeconds;
  seen.least = seen.seconds;
  seen.clear = first < 0;
  seen.quickest = true;
  seen.index = first;
}

const hitOfLaid = (boxes: readonly Box[], from: Facing, i: number): Box | undefined =>
  hitOf(
    boxes,
    from.x,
    from.y,
    laid.angle0[i] ?? 0,
    sidesOf[laid.word[i] ?? 0] ?? [0, 0, 0],
    laid.first[i] ?? 0,
    laid.middle[i] ?? 0,
    laid.last[i] ?? 0,
    laid.radius[i] ?? 1,
  );

/**
 * Looks for a way that turns like one that is known, between facings close to its own: much cheaper than `look`, and now
 * and then through a gap that `look` does not find. Leaves its place in `laid` in `seen.index`, -1 where it is not clear.
 * @returns seconds; Infinity where it is not clear
 */
export function secondsLike(
  { runner, radii, boxes }: Terrain,
  { word, radius, sides }: Way,
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
): number {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const longest = longestWay(Math.sqrt(dx * dx + dy * dy), runner);
  layOutNear(runner, radii, from, to, speedFrom, speedTo, longest, words.indexOf(word), radius, sides);
  measureBoxes(boxes, from.x, from.y, to.x, to.y, runner.besideWing);
  // The last one laid out is the quicker one.
  for (let i = laid.count - 1; i >= 0; i--) {
    seen.index = i;
    if (!hitOfLaid(boxes, from, i)) return laid.seconds[i] ?? Infinity;
  }
  seen.index = -1;
  return Infinity;
}

/** The way that `secondsLike` finds; undefined where it is not clear. */
export function wayLike(
  terrain: Terrain,
  known: Way,
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
): Way | undefined {
  const seconds = secondsLike(terrain, known, from, to, speedFrom, speedTo);
  const { index: i } = seen;
  if (i < 0) return undefined;
  const way = { seconds, clear: true, quickest: true, hit: undefined, lookedAt: laid.length[i] ?? 0 };
  return { ...laidAt(i, from, to), ...way };
}

/** The way that `look` finds. */
export function wayBetween(
  terrain: Terrain,
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
): Way {
  look(terrain, from, to, speedFrom, speedTo);
  const { seconds, clear, quickest, hit, lookedAt, index: i } = seen;
  return { ...laidAt(i, from, to), seconds, clear, quickest, hit, lookedAt };
}

/** What `laid` holds of a way. */
const laidAt = (
  i: number,
  from: Facing,
  to: Facing,
): Pick<Way, 'from' | 'to' | 'word' | 'pieces' | 'radius' | 'length' | 'sides'> => ({
  from: { x: from.x, y: from.y, angle: laid.angle0[i] ?? from.angle },
  to: { x: to.x, y: to.y, angle: laid.angle1[i] ?? to.angle },
  word: words[laid.word[i] ?? 0] ?? 'LSL',
  pieces: [laid.first[i] ?? 0, laid.middle[i] ?? 0, laid.last[i] ?? 0],
  radius: laid.radius[i] ?? 1,
  length: laid.length[i] ?? 0,
  sides: laid.sides[i] ?? 0,
});
