import type { Stand } from './course.ts';
import type { GroundPoint } from './points.ts';
import { from, headingTo, lengthOf, type Pose } from './pose.ts';

/** How many straight pieces stand for each piece of the curve. */
const fineness = 8;

/**
 * A curve through all points as a line of short pieces (Catmull and Rom 1974, uniform). Two points give a straight
 * line, as they lie.
 */
export function smoothLine(points: readonly GroundPoint[]): readonly GroundPoint[] {
  const [first] = points;
  if (!first || points.length < 3) return points;
  const line: GroundPoint[] = [first];
  for (let i = 0; i + 1 < points.length; i++) {
    const b = points[i] ?? first;
    const c = points[i + 1] ?? first;
    const a = points[i - 1] ?? b;
    const e = points[i + 2] ?? c;
    for (let k = 1; k <= fineness; k++) {
      const t = k / fineness;
      line.push({ x: between(a.x, b.x, c.x, e.x, t), y: between(a.y, b.y, c.y, e.y, t) });
    }
  }
  return line;
}

function between(a: number, b: number, c: number, e: number, t: number): number {
  return b + (t / 2) * (c - a + t * (2 * a - 5 * b + 4 * c - e + t * (3 * (b - c) + e - a)));
}

/** The bend of a tunnel as given, or the straight line of its length. */
export function bendOf(stand: Stand, length: number): readonly GroundPoint[] {
  return stand.bend ?? [from(stand, -length / 2), from(stand, length / 2)];
}

/** The centre line of a tunnel from its first mouth to its second. */
export const tunnelLine = (stand: Stand, length: number): readonly GroundPoint[] =>
  smoothLine(bendOf(stand, length));

/** The mouth a dog goes in at and the one it comes out of, each with the way it runs there. */
export function tunnelMouths(
  stand: Stand,
  length: number,
  direction: 'forward' | 'reverse',
): readonly [Pose, Pose] {
  const line = tunnelLine(stand, length);
  const way = direction === 'forward' ? line : line.toReversed();
  const [a, b] = way;
  const [y, z] = way.slice(-2);
  const there: Pose = stand;
  return [
    a && b ? { ...a, headingDegrees: headingTo(a, b) } : there,
    y && z ? { ...z, headingDegrees: headingTo(y, z) } : there,
  ];
}

/**
 * A tunnel bent into a piece of a circle: it keeps its length along the curve and its middle stays where it was,
 * as does the way it runs there. `turnDegrees` is how far it turns from mouth to mouth, to the left where positive.
 */
export function bentInto(stand: Stand, length: number, turnDegrees: number): Stand {
  const line = tunnelLine(stand, length);
  const middle = middleOf(line);
  const straight: Stand = { x: middle.x, y: middle.y, headingDegrees: middle.headingDegrees };
  if (Math.abs(turnDegrees) < 0.5) return straight;
  const radius = length / ((turnDegrees * Math.PI) / 180);
  const bend = [-1, -0.5, 0, 0.5, 1].map((share) => {
    const angle = (share * turnDegrees * Math.PI) / 360;
    const at = from(middle, radius * Math.sin(angle), radius * (1 - Math.cos(angle)));
    return { x: tidy(at.x), y: tidy(at.y) };
  });
  return { ...straight, bend };
}

/** How far a tunnel turns from mouth to mouth, degrees, to the left where positive; exact for a piece of a circle. */
export function turnOf(stand: Stand, length: number): number {
  const bend = bendOf(stand, length);
  const chords = bend.length - 1;
  if (chords < 2) return 0;
  let turn = 0;
  for (let i = 2; i < bend.length; i++) {
    const [a, b, c] = [bend[i - 2], bend[i - 1], bend[i]];
    if (a && b && c) turn += ((headingTo(b, c) - headingTo(a, b) + 540) % 360) - 180;
  }
  // Half a chord's turn lies before the first chord's middle and half behind the last one's.
  return (turn * chords) / (chords - 1);
}

/** The point half way along a line, and the way it runs there. */
export function middleOf(line: readonly GroundPoint[]): Pose {
  let left = lengthOf(line) / 2;
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1];
    const b = line[i];
    if (!a || !b) break;
    const piece = Math.hypot(b.x - a.x, b.y - a.y);
    if (piece > 0 && left <= piece) {
      const t = left / piece;
      return { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y), headingDegrees: headingTo(a, b) };
    }
    left -= piece;
  }
  const [first = { x: 0, y: 0 }] = line;
  return { ...first, headingDegrees: 0 };
}

const tidy = (v: number): number => Math.round(v * 1000) / 1000;
