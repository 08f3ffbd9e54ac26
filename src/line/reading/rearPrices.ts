import { mannerOf } from '../../course/kinds.ts';
import { from, headingTo, plainHeading, type Pose } from '../../course/pose.ts';
import { dubins, type DubinsPath, type Facing } from '../dubins.ts';
import { radiiOf, stretchSeconds, turningSpeed } from '../likely/pace.ts';
import type { LikelyLine } from '../line.ts';
import type { Runner } from '../runner.ts';
import { entriesLike, type DogSkills, type DoneOf } from '../skills.ts';
import { poleSide } from './entryRemark.ts';
import type { Place } from './legs.ts';
import { obliquely } from './opening.ts';

/** How a jump and the turn behind it are run. Degrees to the left where positive. */
export interface RearPrice {
  /** From landing to the next obstacle. */
  readonly turnDegrees: number;
  /** How obliquely the bar is crossed. */
  readonly sliceDegrees: number;
  /** How far the straight way from her landing to the next obstacle lies off the way she must run there. */
  readonly nextObliquely: number;
  /** Where the next obstacle are poles: such entries as were counted. */
  readonly count?: DoneOf;
}

/**
 * What a rear cross at a jump costs and brings, by where it is made (common practice, design facts): behind her before
 * she takes off, she knows the turn and jumps into it; on the landing side she jumps straight on and turns after it.
 */
export interface RearPrices {
  readonly number: number;
  readonly to: number;
  readonly before: RearPrice;
  readonly after: RearPrice;
  /** How much later she is at the next obstacle where the change is on the landing side, seconds; below 0: sooner. */
  readonly later: number;
}

/**
 * Both prices at a number; undefined where she does not fly there, or nothing follows. Knowing the turn she runs her
 * likely line. Not knowing it, she runs from where she came straight at the middle of the bar, no more obliquely than
 * she takes one, and goes on from there: the quickest Dubins way (Dubins 1957) to the same take-off or entry, at the
 * speed that each radius allows. Both are priced in that one way.
 * @param places those of the course and the line, in order
 */
export function rearPrices(
  places: readonly Place[],
  line: LikelyLine,
  number: number,
  runner: Runner,
  skills?: DogSkills,
): RearPrices | undefined {
  const i = places.findIndex((p) => p.line.number === number);
  const [here, next] = [places[i], places[i + 1]];
  const way = line.stretches.find((s) => s.from === number);
  const came = line.stretches.find((s) => s.to === number)?.points[0];
  if (!here || !next || !way || !came || way.to !== next.line.number) return undefined;
  if (mannerOf(here.drawn.obstacle.kind) !== 'jumped') return undefined;
  const { entry, exit, sliceDegrees } = here.line;
  const square = exit.headingDegrees - sliceDegrees;
  const bar = middleOf(here);
  const aside = plainHeading(headingTo(came, bar) - square);
  const slant = Math.max(-runner.sliceMost, Math.min(runner.sliceMost, aside));
  const straight: Pose = { ...bar, headingDegrees: square + slant };
  const takeOff = ahead(straight, -runner.takeOff);
  const landing = ahead(straight, runner.landing);
  const before = places[i - 1]?.line.exit;
  const start: Pose = before ?? { ...came, headingDegrees: headingTo(came, bar) };
  const seconds = (jumpFrom: Pose, landed: Pose): number =>
    quickest(start, jumpFrom, runner) + quickest(landed, next.line.entry, runner);
  const price = (landed: Pose, slice: number): RearPrice => {
    const nextObliquely = obliquely(landed, next.opening);
    const poles = next.drawn.obstacle.kind === 'weavePoles';
    const count = poles && skills ? entriesLike(skills, poleSide(nextObliquely), nextObliquely) : undefined;
    return {
      turnDegrees: way.turnDegrees + plainHeading(exit.headingDegrees - landed.headingDegrees),
      sliceDegrees: slice,
      nextObliquely,
      ...(count ? { count } : {}),
    };
  };
  return {
    number,
    to: next.line.number,
    before: price(exit, sliceDegrees),
    after: price(landing, slant),
    later: seconds(takeOff, landing) - seconds(entry, exit),
  };
}

/** The middle of a bar: where the way through the obstacle is half run. */
function middleOf({ drawn }: Place): Pose {
  const { entry, exit } = drawn;
  return { ...exit, x: (entry.x + exit.x) / 2, y: (entry.y + exit.y) / 2 };
}

const ahead = (pose: Pose, metres: number): Pose => ({
  ...from(pose, metres),
  headingDegrees: pose.headingDegrees,
});

const facing = ({ x, y, headingDegrees }: Pose): Facing => ({
  ...{ x, y },
  angle: (headingDegrees * Math.PI) / 180,
});

/** Seconds of the quickest way between two poses, of all radii she turns on. */
function quickest(a: Pose, b: Pose, runner: Runner): number {
  const all = radiiOf(runner).map((radius) => secondsOf(dubins(facing(a), facing(b), radius), runner));
  return Math.min(...all);
}

/** Turns at the speed their radius allows; on the straight she picks up and brakes again. */
function secondsOf({ word, pieces, radius }: DubinsPath, runner: Runner): number {
  const turning = turningSpeed(radius, runner);
  return pieces.reduce((sum, metres, k) => {
    if (word[k] !== 'S') return sum + metres / turning;
    return sum + stretchSeconds(metres, turning, turning, runner.topSpeed, turning, turning, runner);
  }, 0);
}
