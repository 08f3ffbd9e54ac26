import type { GroundPoint } from './points.ts';

/** A place on the ground and the way it looks: degrees, counter-clockwise from +x. */
export interface Pose extends GroundPoint {
  readonly headingDegrees: number;
}

/** The point `along` metres ahead of a pose and `aside` metres to its left. */
export function from(pose: Pose, along: number, aside = 0): GroundPoint {
  const a = (pose.headingDegrees * Math.PI) / 180;
  return {
    x: pose.x + along * Math.cos(a) - aside * Math.sin(a),
    y: pose.y + along * Math.sin(a) + aside * Math.cos(a),
  };
}

/** The heading from one point to another, degrees in (-180, 180]. */
export const headingTo = (a: GroundPoint, b: GroundPoint): number =>
  (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;

/** The same heading in (-180, 180], without the dust of floating point. */
export function plainHeading(degrees: number): number {
  const turned = (((degrees % 360) + 540) % 360) - 180;
  const plain = Math.round(turned * 1e6) / 1e6;
  return plain === -180 ? 180 : plain === 0 ? 0 : plain;
}

/** Metres between two points. */
export const distance = (a: GroundPoint, b: GroundPoint): number => Math.hypot(b.x - a.x, b.y - a.y);

/** A point turned about another, degrees counter-clockwise. */
export function turnedAbout(point: GroundPoint, about: GroundPoint, degrees: number): GroundPoint {
  const a = (degrees * Math.PI) / 180;
  const dx = point.x - about.x;
  const dy = point.y - about.y;
  return {
    x: about.x + dx * Math.cos(a) - dy * Math.sin(a),
    y: about.y + dx * Math.sin(a) + dy * Math.cos(a),
  };
}

/** The length of a line through points, metres. */
export function lengthOf(line: readonly GroundPoint[]): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1];
    const b = line[i];
    if (a && b) sum += distance(a, b);
  }
  return sum;
}
