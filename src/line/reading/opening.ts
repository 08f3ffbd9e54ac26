import type { Obstacle, Stand, Step } from '../../course/course.ts';
import { drawnSizes } from '../../course/equipment.ts';
import { wayThrough } from '../../course/planShapes.ts';
import type { GroundPoint } from '../../course/points.ts';
import { distance, from, headingTo, plainHeading, type Pose } from '../../course/pose.ts';

/** The way into an obstacle: what a dog must see of it, and reach, to take it. */
export interface Opening {
  /** Its two ends, to the left and to the right of a dog that goes in. */
  readonly left: GroundPoint;
  readonly right: GroundPoint;
  /** Where she aims for and the way she runs there. Poles: the first pole. */
  readonly aim: Pose;
  /** True where it can be taken from any side. */
  readonly anySide: boolean;
}

/** Out of the mouth or off the edge, so that an obstacle's own body does not hide what lies on its edge, metres. */
const before = 0.05;

/**
 * The way into an obstacle that stands on the grass. Jumps: between the uprights, at the first bar. Tunnels: the
 * mouth. Ramps: the edge on the ground. Poles: from the first pole one spacing to the right, since that pole comes at
 * her left shoulder (common practice and rule).
 */
export function openingOf(
  obstacle: Pick<Obstacle, 'kind' | 'sizes'>,
  stand: Stand,
  direction: Step['direction'],
): Opening {
  const size = drawnSizes(obstacle.kind, obstacle.sizes);
  const [entry] = wayThrough(obstacle, stand, direction);
  const across = (breadth: number, along = 0): Opening => {
    const aim = { ...from(entry, along), headingDegrees: entry.headingDegrees };
    return {
      left: from(aim, 0, breadth / 2),
      right: from(aim, 0, -breadth / 2),
      aim,
      anySide: false,
    };
  };
  switch (obstacle.kind) {
    case 'barJump':
    case 'panel':
      return across(size.barWidth);
    case 'spread':
    case 'wall':
      return across(size.barWidth, -size.depth / 2);
    case 'longJump':
      return across(size.longJumpWidth, -size.depth / 2);
    case 'tyre':
      return across(size.tyreAperture);
    case 'tunnel':
      return across(size.tunnelDiameter, -before);
    case 'aFrame':
      return across(size.aFrameWidth, -before);
    case 'dogWalk':
    case 'seeSaw':
      return across(size.plankWidth, -before);
    case 'weavePoles':
      return { left: entry, right: from(entry, 0, -size.spacing), aim: entry, anySide: false };
    case 'table':
      return { ...across(size.tableSide), anySide: true };
    case 'unknown':
      return { ...across(0.7), anySide: true };
  }
}

/** How far a point lies off a heading, degrees in (-180, 180], to the left where positive. */
export const offHeading = (pose: Pose, point: GroundPoint): number =>
  plainHeading(headingTo(pose, point) - pose.headingDegrees);

/** How obliquely an opening is met on the straight way from a place, degrees in (-180, 180]; she runs to its left where positive. */
export const obliquely = (at: GroundPoint, { aim }: Opening): number =>
  plainHeading(headingTo(at, aim) - aim.headingDegrees);

/** The opening as a dog meets it from a place: what can be taken from any side turns its face to her. */
export function asMetFrom(at: GroundPoint, opening: Opening): Opening {
  const { aim, left, right, anySide } = opening;
  if (!anySide) return opening;
  const half = distance(left, right) / 2;
  const faced: Pose = { ...aim, headingDegrees: headingTo(at, aim) };
  return { ...opening, left: from(faced, 0, half), right: from(faced, 0, -half) };
}

/** Where the straight way on from a pose comes nearest to an opening by angle: how far off it lies and how far away. */
export function straightOnTo(
  pose: Pose,
  opening: Opening,
): { readonly point: GroundPoint; readonly degrees: number; readonly metres: number } {
  const { left, right } = asMetFrom(pose, opening);
  const at = (share: number): GroundPoint => ({
    x: left.x + share * (right.x - left.x),
    y: left.y + share * (right.y - left.y),
  });
  const [a, b] = [asideOf(pose, left), asideOf(pose, right)];
  if (a * b < 0) {
    const point = at(a / (a - b));
    if (Math.abs(offHeading(pose, point)) < 90) return { point, degrees: 0, metres: distance(pose, point) };
  }
  const [l, r] = [offHeading(pose, left), offHeading(pose, right)];
  const nearer = Math.abs(l) <= Math.abs(r) ? left : right;
  return { point: nearer, degrees: nearer === left ? l : r, metres: distance(pose, nearer) };
}

/** Metres to the left of a pose's straight way on. */
function asideOf(pose: Pose, p: GroundPoint): number {
  const h = (pose.headingDegrees * Math.PI) / 180;
  return (p.y - pose.y) * Math.cos(h) - (p.x - pose.x) * Math.sin(h);
}
