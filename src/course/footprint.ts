import type { Obstacle, Stand } from './course.ts';
import { drawnSizes } from './equipment.ts';
import type { GroundPoint } from './points.ts';
import { from, headingTo } from './pose.ts';
import { reach } from './planShapes.ts';
import { halfBreadth } from './sequence.ts';
import { tunnelLine } from './tunnelLine.ts';

/** A convex four-cornered piece of the ground. */
export type Quad = readonly [GroundPoint, GroundPoint, GroundPoint, GroundPoint];

/** Left, right, lower and upper end of something on the ground. */
export interface Extent {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

type Piece = Pick<Obstacle, 'kind' | 'sizes'>;

/** The ground that a piece stands on, as convex quads: one for most, several for a bent tunnel. */
export function footprint(o: Piece, stand: Stand): readonly Quad[] {
  if (o.kind !== 'tunnel') {
    const [length, breadth] = halves(o);
    return [
      [
        from(stand, -length, -breadth),
        from(stand, length, -breadth),
        from(stand, length, breadth),
        from(stand, -length, breadth),
      ],
    ];
  }
  const { tunnelDiameter, tunnelLength } = drawnSizes(o.kind, o.sizes);
  const half = tunnelDiameter / 2;
  const line = tunnelLine(stand, tunnelLength);
  return line.slice(1).flatMap((b, i): Quad[] => {
    const a = line[i];
    if (!a) return [];
    const headingDegrees = headingTo(a, b);
    const there = { ...a, headingDegrees };
    const end = { ...b, headingDegrees };
    return [[from(there, 0, -half), from(end, 0, -half), from(end, 0, half), from(there, 0, half)]];
  });
}

/** Half the length along the way it is taken and half the breadth across it, metres. */
function halves(o: Piece): readonly [number, number] {
  const size = drawnSizes(o.kind, o.sizes);
  switch (o.kind) {
    case 'spread':
      return [size.depth / 2 + 0.1, halfBreadth(o) + size.backBarLonger / 2];
    case 'longJump':
    case 'wall':
      return [Math.max(0.15, size.depth / 2), o.kind === 'wall' ? halfBreadth(o) : size.longJumpWidth / 2];
    case 'weavePoles':
      return [reach(o) + 0.05, 0.15];
    case 'aFrame':
      return [reach(o), size.aFrameWidth / 2];
    case 'dogWalk':
      return [reach(o), size.plankWidth / 2];
    case 'seeSaw':
      return [reach(o), size.plankWidth / 2 + 0.1];
    case 'table':
      return [reach(o), size.tableSide / 2];
    case 'unknown':
      return [0.35, 0.35];
    case 'barJump':
    case 'panel':
    case 'tyre':
    case 'tunnel':
      return [0.1, halfBreadth(o)];
  }
}

/** How far something on the ground goes each way. */
export function extentOf(points: Iterable<GroundPoint>): Extent {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return { x0, y0, x1, y1 };
}

/** True where two extents have ground in common. */
export const extentsMeet = (a: Extent, b: Extent): boolean =>
  a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;

/** True where two convex quads have ground in common (separating axis theorem); touching edges do not count. */
export function quadsMeet(a: Quad, b: Quad): boolean {
  return !parted(a, b) && !parted(b, a);
}

function parted(a: Quad, b: Quad): boolean {
  return a.some((p, i) => {
    const q = a[(i + 1) % 4] ?? p;
    const nx = q.y - p.y;
    const ny = p.x - q.x;
    const along = (r: GroundPoint): number => r.x * nx + r.y * ny;
    const [least, most] = [Math.min(...a.map(along)), Math.max(...a.map(along))];
    const dust = 1e-9;
    return Math.max(...b.map(along)) <= least + dust || Math.min(...b.map(along)) >= most - dust;
  });
}

/** Metres from a point to a piece's ground; 0 on it. */
export function distanceToGround(quads: readonly Quad[], point: GroundPoint): number {
  let nearest = Infinity;
  for (const quad of quads) {
    let inside = true;
    for (let i = 0; i < 4; i++) {
      const a = quad[i] ?? point;
      const b = quad[(i + 1) % 4] ?? point;
      if ((b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x) < 0) inside = false;
      nearest = Math.min(nearest, toSegment(point, a, b));
    }
    if (inside) return 0;
  }
  return nearest;
}

/** Metres from a point to the straight line between two others. */
export function toSegment(p: GroundPoint, a: GroundPoint, b: GroundPoint): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const size = dx * dx + dy * dy;
  const t = size === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
  return Math.hypot(p.x - (a.x + t * dx), p.y - (a.y + t * dy));
}
