import type { Course, Obstacle, Stand } from '../../../../src/course/course.ts';
import { middleOfChosen } from '../../../../src/course/drawing/arrange.ts';
import { drawnSizes } from '../../../../src/course/equipment.ts';
import {
  distanceToGround,
  extentOf,
  footprint,
  toSegment,
  type Extent,
  type Quad,
} from '../../../../src/course/footprint.ts';
import { reach } from '../../../../src/course/planShapes.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { distance, from } from '../../../../src/course/pose.ts';
import { lineOf, type WhichLine } from '../../../../src/course/postLines.ts';
import { bendOf, middleOf, tunnelLine } from '../../../../src/course/tunnelLine.ts';

interface Ground {
  readonly stand: Stand;
  readonly quads: readonly Quad[];
  readonly extent: Extent;
}

const known = new WeakMap<Obstacle, Ground>();

/** The ground of a piece; worked out once for each, as pieces never change. */
export function groundOf(o: Obstacle): Ground | null {
  if (!o.stand) return null;
  const there = known.get(o);
  if (there) return there;
  const quads = footprint(o, o.stand);
  const ground = { stand: o.stand, quads, extent: extentOf(quads.flat()) };
  known.set(o, ground);
  return ground;
}

/** The piece under a point, or the nearest within `slack` metres; the one drawn last where several are. */
export function pieceUnder(course: Course, p: GroundPoint, slack: number): Obstacle | null {
  let best: Obstacle | null = null;
  let near = slack;
  for (const o of course.obstacles) {
    const ground = groundOf(o);
    if (!ground) continue;
    const { extent, quads } = ground;
    if (
      p.x < extent.x0 - slack ||
      p.x > extent.x1 + slack ||
      p.y < extent.y0 - slack ||
      p.y > extent.y1 + slack
    )
      continue;
    const d = distanceToGround(quads, p);
    if (d <= near) [best, near] = [o, d];
  }
  return best;
}

/** The pieces that lie within a box drawn from corner to corner, by their middles. */
export function piecesWithin(course: Course, a: GroundPoint, b: GroundPoint): readonly string[] {
  const [x0, x1] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
  const [y0, y1] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  return course.obstacles.flatMap((o) =>
    o.stand && o.stand.x >= x0 && o.stand.x <= x1 && o.stand.y >= y0 && o.stand.y <= y1 ? [o.id] : [],
  );
}

/** Pixels from the edge of what is chosen to the knob that turns it. */
const knobAway = 26;

/** Where the knob stands that turns the chosen pieces; null where nothing is chosen that stands. */
export function knobOf(course: Course, chosen: readonly string[], scale: number): GroundPoint | null {
  const middle = middleOfChosen(course, chosen);
  if (!middle) return null;
  const only = chosen.length === 1 ? course.obstacles.find((o) => o.id === chosen[0]) : undefined;
  if (!only?.stand) return { x: middle.x, y: middle.y + knobAway / scale };
  if (only.kind !== 'tunnel') return from(only.stand, reach(only) + knobAway / scale);
  const line = middleOf(tunnelLine(only.stand, drawnSizes(only.kind, only.sizes).tunnelLength));
  return from(line, 0, 0.3 + knobAway / scale);
}

/** The points by which the one chosen tunnel is bent: its mouths and what lies between. */
export function bendHandles(course: Course, chosen: readonly string[]): readonly GroundPoint[] {
  const [id] = chosen;
  const o = chosen.length === 1 ? course.obstacles.find((x) => x.id === id) : undefined;
  if (o?.kind !== 'tunnel' || !o.stand) return [];
  const bend = bendOf(o.stand, drawnSizes(o.kind, o.sizes).tunnelLength);
  const [a, b] = bend;
  return a && b && bend.length === 2 ? [a, { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, b] : bend;
}

/** What of a start or finish line is under a point. */
export function lineUnder(
  course: Course,
  p: GroundPoint,
  slack: number,
): { readonly which: WhichLine; readonly end: 'from' | 'to' | 'both' } | null {
  for (const which of ['start', 'finish'] as const) {
    const line = lineOf(course, which);
    if (!line) continue;
    if (distance(line.from, p) <= slack) return { which, end: 'from' };
    if (distance(line.to, p) <= slack) return { which, end: 'to' };
    if (toSegment(p, line.from, line.to) <= slack / 2) return { which, end: 'both' };
  }
  return null;
}
