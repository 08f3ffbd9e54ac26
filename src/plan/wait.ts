import type { Course } from '../course/course.ts';
import { drawnSizes } from '../course/equipment.ts';
import type { ObstacleKind } from '../course/kinds.ts';
import type { GroundPoint } from '../course/points.ts';
import { distance, from, headingTo, plainHeading, type Pose } from '../course/pose.ts';
import { drawnSteps, type DrawnStep } from '../course/sequence.ts';
import type { Assumed, Runner } from '../line/runner.ts';

/** Metres from where she waits to the first obstacle: room to get going, and no more than a stay has to hold. */
export const assumedRunUp: Assumed = {
  least: 2.5,
  usual: 4,
  most: 6,
  unit: 'm',
  why: 'two strides before take-off; common practice',
};

/** How the first two obstacles lie for a dog that waits at a spot. */
export interface WaitSpot {
  readonly at: GroundPoint;
  /** Metres from there to the middle of 1. */
  readonly runUp: number;
  /** Where her straight way from there to 2 crosses 1: metres to the left of its middle, as she runs. */
  readonly offset: number;
  /** How obliquely she takes 1 on that way: degrees, to the left where positive. */
  readonly sliceDegrees: number;
  /** The turn she still has to make behind 1 if she takes 1 at its middle: degrees, to the left where positive. */
  readonly turnDegrees: number;
  /** True where the straight way to 2 goes through 1, no more obliquely than she takes a bar, and into 2 from there. */
  readonly inLine: boolean;
  /** What else keeps 1 and 2 from standing in one line, where it is not the turn behind 1. */
  readonly but: 'oneSpot' | 'behind' | 'farSide' | 'steep' | null;
  readonly insideRing: boolean;
}

/** Two pieces no farther apart stand on one spot, metres. */
const touching = 0.01;
/** What can be taken from any side. */
const anySide: ReadonlySet<ObstacleKind> = new Set(['table', 'unknown']);

/** Metres of a bar at each end over which no dog is sent. */
const edge = 0.2;

/** Half the width that she may go through at an obstacle, metres. */
function halfOpening({ obstacle }: DrawnStep): number {
  const size = drawnSizes(obstacle.kind, obstacle.sizes);
  switch (obstacle.kind) {
    case 'tunnel':
      return size.tunnelDiameter / 2;
    case 'tyre':
      return size.tyreAperture / 2;
    case 'longJump':
      return size.longJumpWidth / 2 - edge;
    case 'aFrame':
      return size.aFrameWidth / 2;
    case 'dogWalk':
    case 'seeSaw':
    case 'weavePoles':
      return 0.15;
    case 'table':
      return size.tableSide / 2 - edge;
    default:
      return size.barWidth / 2 - edge;
  }
}

/** The first two drawn numbers, where they are 1 and 2. */
function firstTwo(course: Course): readonly [DrawnStep, DrawnStep] | null {
  const [one, two] = drawnSteps(course);
  return one?.step.number === 1 && two?.step.number === 2 ? [one, two] : null;
}

/**
 * Where the dog waits so that 1 and 2 stand in one line for her: on the line through their middles, a run-up before 1,
 * nearer where the ring ends, though not nearer than the least run-up. Where that line is more oblique at 1 than she
 * takes a bar, as oblique as she does.
 * @returns null where 1 and 2 are not both drawn
 */
export function suggestedWait(
  course: Course,
  runner: Pick<Runner, 'sliceMost'>,
  runUp: number = assumedRunUp.usual,
): WaitSpot | null {
  const pair = firstTwo(course);
  if (!pair) return null;
  const [one, two] = pair;
  const slice = plainHeading(headingTo(one.entry, two.entry) - one.entry.headingDegrees);
  const most = Math.min(runner.sliceMost, 89);
  const headingDegrees = one.entry.headingDegrees + Math.max(-most, Math.min(most, slice));
  const middle: Pose = { ...one.entry, headingDegrees };
  let back = runUp;
  while (back > assumedRunUp.least && !inside(course, from(middle, -back))) {
    back = Math.max(assumedRunUp.least, back - 0.1);
  }
  return waitFrom(course, from(middle, -back), runner);
}

/**
 * How the first two obstacles lie for a dog that waits at `at`.
 * @returns null where 1 and 2 are not both drawn, or she would wait behind 1
 */
export function waitFrom(
  course: Course,
  at: GroundPoint,
  runner: Pick<Runner, 'sliceMost'>,
): WaitSpot | null {
  const pair = firstTwo(course);
  if (!pair) return null;
  const [one, two] = pair;
  const axis = one.entry.headingDegrees;
  const [before, aside] = within(one.entry, at);
  const [beyond, across] = within(one.entry, two.entry);
  if (before >= 0) return null;
  const sliceDegrees = plainHeading(headingTo(at, two.entry) - axis);
  const crosses = beyond > 0;
  const offset = crosses ? aside + ((across - aside) * -before) / (beyond - before) : aside;
  const turnDegrees = plainHeading(headingTo(one.entry, two.entry) - headingTo(at, one.entry));
  const steep = Math.abs(sliceDegrees) > runner.sliceMost + 1e-6;
  const farSide =
    !anySide.has(two.obstacle.kind) &&
    Math.abs(plainHeading(headingTo(at, two.entry) - two.entry.headingDegrees)) > 90;
  const but =
    distance(one.entry, two.entry) < touching
      ? 'oneSpot'
      : !crosses
        ? 'behind'
        : farSide
          ? 'farSide'
          : steep && Math.abs(turnDegrees) < 0.5
            ? 'steep'
            : null;
  const inLine = but === null && !steep && Math.abs(offset) <= halfOpening(one) + 1e-9;
  return {
    at,
    runUp: distance(at, one.entry),
    offset,
    sliceDegrees,
    turnDegrees,
    inLine,
    but,
    insideRing: inside(course, at),
  };
}

/** Metres ahead of a pose and to its left. */
function within(pose: Pose, p: GroundPoint): readonly [number, number] {
  const a = (pose.headingDegrees * Math.PI) / 180;
  const [dx, dy] = [p.x - pose.x, p.y - pose.y];
  return [dx * Math.cos(a) + dy * Math.sin(a), dy * Math.cos(a) - dx * Math.sin(a)];
}

/** True where a spot lies in the ring, or no ring is given. */
export function inside({ ring }: Pick<Course, 'ring'>, p: GroundPoint): boolean {
  return !ring || (p.x >= 0 && p.y >= 0 && p.x <= ring.width && p.y <= ring.length);
}
