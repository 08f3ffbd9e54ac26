import type { GroundPoint } from '../../course/points.ts';
import type { Facing } from '../dubins.ts';
import type { Box } from './solids.ts';

/** So much further than needed the corners are rounded, metres: a turn touches them beside its own middle. */
const spare = 0.05;
/** Corners this near to one another are rounded as one, metres. */
const together = 0.5;
/** A bend of a hull smaller than this, radians, needs no corner of its own. */
const leastBend = 0.7;

/** Facings at which a piece can be rounded: beside each corner of the ground it takes, along it, both ways. */
export function cornersOf(piece: readonly Box[], gap: number): readonly Facing[] {
  const corners = hull(piece.flatMap(cornersOfBox));
  return places(corners).flatMap(({ x, y, out }) => {
    const at = { x: x + (gap + spare) * Math.cos(out), y: y + (gap + spare) * Math.sin(out) };
    return [
      { ...at, angle: out + Math.PI / 2 },
      { ...at, angle: out - Math.PI / 2 },
    ];
  });
}

function cornersOfBox(b: Box): GroundPoint[] {
  return [
    [1, 1],
    [1, -1],
    [-1, -1],
    [-1, 1],
  ].map(([l = 0, s = 0]) => ({
    x: b.x + l * b.halfLength * b.cos - s * b.halfBreadth * b.sin,
    y: b.y + l * b.halfLength * b.sin + s * b.halfBreadth * b.cos,
  }));
}

/** The convex hull of points, counter-clockwise (Andrew 1979, monotone chain). */
function hull(points: readonly GroundPoint[]): readonly GroundPoint[] {
  const sorted = points.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const half = (all: readonly GroundPoint[]): GroundPoint[] => {
    const chain: GroundPoint[] = [];
    for (const p of all) {
      for (let a = chain.at(-2), b = chain.at(-1); a && b; a = chain.at(-2), b = chain.at(-1)) {
        if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > 1e-12) break;
        chain.pop();
      }
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}

/** Where a hull is rounded: bends close together as one, in the middle between them. */
function places(corners: readonly GroundPoint[]): readonly (GroundPoint & { readonly out: number })[] {
  const n = corners.length;
  const found: { x: number; y: number; out: number; last: GroundPoint; bend: number }[] = [];
  for (let i = 0; i < n; i++) {
    const a = corners[(i + n - 1) % n];
    const b = corners[i];
    const c = corners[(i + 1) % n];
    if (!a || !b || !c) continue;
    const into = Math.atan2(b.y - a.y, b.x - a.x);
    const bend = turned(Math.atan2(c.y - b.y, c.x - b.x) - into);
    const out = into - Math.PI / 2 + bend / 2;
    const before = found.at(-1);
    if (before && near(before.last, b)) join(before, b, out, bend);
    else found.push({ x: b.x, y: b.y, out, last: b, bend });
  }
  const [first] = found;
  const last = found.at(-1);
  if (first && last && first !== last && near(last.last, first)) {
    join(first, { x: last.x, y: last.y }, last.out, last.bend);
    found.pop();
  }
  // Gentle bends are gathered until together they turn enough.
  let gathered = 0;
  return found.filter(({ bend }) => {
    gathered += bend;
    if (gathered < leastBend) return false;
    gathered = 0;
    return true;
  });
}

const near = (a: GroundPoint, b: GroundPoint): boolean => Math.hypot(a.x - b.x, a.y - b.y) < together;

function join(
  into: { x: number; y: number; out: number; last: GroundPoint; bend: number },
  at: GroundPoint,
  out: number,
  bend: number,
): void {
  into.x = (into.x + at.x) / 2;
  into.y = (into.y + at.y) / 2;
  into.out += turned(out - into.out) / 2;
  into.last = at;
  into.bend += bend;
}

const turned = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
