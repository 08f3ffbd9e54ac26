import { extentOf, extentsMeet, toSegment } from '../../course/footprint.ts';
import type { GroundPoint } from '../../course/points.ts';
import type { Hider } from './hiders.ts';

/** How much of a line on the ground is hidden from a place, and by what. */
export interface Hidden {
  /** Share of the line that is hidden, 0 to 1. */
  readonly share: number;
  /** Each thing that hides some of it, with its own share, the most hiding first. */
  readonly by: readonly { readonly hider: Hider; readonly share: number }[];
}

/** Nearer than this an eye is taken to stand on a thing, which then hides nothing; and what lies on the line itself is not before it. */
const touch = 1e-6;

/**
 * How much of the line from `a` to `b` is hidden from `eye`, on the plan. Exact: each convex hider is clipped to the
 * triangle of eye and line (Sutherland and Hodgman 1974) and its corners thrown onto the line; the shadows' union is
 * what is hidden. A line seen end on is hidden by itself.
 */
export function hiddenOf(eye: GroundPoint, a: GroundPoint, b: GroundPoint, hiders: readonly Hider[]): Hidden {
  const near = (p: GroundPoint): GroundPoint => ({
    x: p.x + (eye.x - p.x) * touch,
    y: p.y + (eye.y - p.y) * touch,
  });
  const [p, q] = [near(a), near(b)];
  const area = cross(p, q, eye);
  if (Math.abs(area) < 1e-9) return { share: 1, by: [] };
  const triangle: readonly GroundPoint[] = area > 0 ? [p, q, eye] : [q, p, eye];
  const shadows: { hider: Hider; from: number; to: number }[] = [];
  const around = extentOf(triangle);
  for (const hider of hiders) {
    if (!extentsMeet(hider.extent, around) || standsOn(eye, hider.ground)) continue;
    const shadow = shadowOn(eye, p, q, clipped(hider.ground, triangle));
    if (shadow) shadows.push({ hider, from: shadow[0], to: shadow[1] });
  }
  return {
    share: unionOf(shadows),
    by: shadows.map((s) => ({ hider: s.hider, share: s.to - s.from })).sort((m, n) => n.share - m.share),
  };
}

/** Twice the area of a triangle; positive where it runs counter-clockwise. */
const cross = (a: GroundPoint, b: GroundPoint, c: GroundPoint): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

function standsOn(eye: GroundPoint, ground: readonly GroundPoint[]): boolean {
  let inside = ground.length > 2;
  for (const [i, a] of ground.entries()) {
    const b = ground[(i + 1) % ground.length] ?? a;
    if (toSegment(eye, a, b) < touch) return true;
    if (cross(a, b, eye) < 0) inside = false;
  }
  return inside;
}

/** What of a convex piece of ground lies in a triangle (both counter-clockwise); the piece may be a line. */
function clipped(ground: readonly GroundPoint[], triangle: readonly GroundPoint[]): readonly GroundPoint[] {
  let left = ground;
  for (const [i, a] of triangle.entries()) {
    const b = triangle[(i + 1) % triangle.length] ?? a;
    const kept: GroundPoint[] = [];
    for (const [k, p] of left.entries()) {
      const q = left[(k + 1) % left.length] ?? p;
      const [u, v] = [cross(a, b, p), cross(a, b, q)];
      if (u >= 0) kept.push(p);
      if (u * v < 0) {
        const t = u / (u - v);
        kept.push({ x: p.x + t * (q.x - p.x), y: p.y + t * (q.y - p.y) });
      }
    }
    left = kept;
    if (left.length === 0) break;
  }
  return left;
}

/** From where to where, as shares of the line, points throw their shadow; undefined where they throw none. */
function shadowOn(
  eye: GroundPoint,
  a: GroundPoint,
  b: GroundPoint,
  points: readonly GroundPoint[],
): readonly [number, number] | undefined {
  let [least, most] = [Infinity, -Infinity];
  for (const point of points) {
    const [dx, dy] = [point.x - eye.x, point.y - eye.y];
    const t = ((a.y - eye.y) * dx - (a.x - eye.x) * dy) / ((b.x - a.x) * dy - (b.y - a.y) * dx);
    least = Math.min(least, t);
    most = Math.max(most, t);
  }
  const [from, to] = [Math.max(0, least), Math.min(1, most)];
  return to - from > touch ? [from, to] : undefined;
}

function unionOf(shadows: readonly { readonly from: number; readonly to: number }[]): number {
  let [sum, reached] = [0, 0];
  for (const { from, to } of shadows.toSorted((m, n) => m.from - n.from)) {
    sum += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return Math.min(1, sum);
}
