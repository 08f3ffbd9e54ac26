import { direction, lengthOf } from '../base/exact.ts';
import type { GroundPoint } from './equipment.ts';

/** A smooth centre line through bend points, sampled by length. */
export interface TunnelLine {
  readonly length: number;
  readonly points: readonly GroundPoint[];
  at(distance: number): GroundPoint & { readonly heading: number };
}

function bend(p0: GroundPoint, p1: GroundPoint, p2: GroundPoint, p3: GroundPoint, u: number): GroundPoint {
  const w = (a: number, b: number, c: number, d: number): number =>
    0.5 * (2 * b + (c - a) * u + (2 * a - 5 * b + 4 * c - d) * u * u + (3 * b - a - 3 * c + d) * u * u * u);
  return { x: w(p0.x, p1.x, p2.x, p3.x), y: w(p0.y, p1.y, p2.y, p3.y) };
}

/** Line through `bends` (two or more), forward or backward. */
export function tunnelLine(bends: readonly GroundPoint[], reversed: boolean): TunnelLine {
  const chain = reversed ? [...bends].reverse() : [...bends];
  const first = chain[0];
  const last = chain[chain.length - 1];
  if (!first || !last || chain.length < 2) throw new Error('A tunnel needs at least two bend points.');
  const points: GroundPoint[] = [];
  for (let i = 0; i + 1 < chain.length; i++) {
    const b = chain[i] ?? first;
    const c = chain[i + 1] ?? last;
    const a = chain[i - 1] ?? { x: 2 * b.x - c.x, y: 2 * b.y - c.y };
    const d = chain[i + 2] ?? { x: 2 * c.x - b.x, y: 2 * c.y - b.y };
    for (let k = 0; k < 24; k++) points.push(bend(a, b, c, d, k / 24));
  }
  points.push(last);
  const along = [0];
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1] ?? first;
    const b = points[i] ?? last;
    along.push((along[i - 1] ?? 0) + lengthOf(b.x - a.x, b.y - a.y));
  }
  const length = along[along.length - 1] ?? 0;
  return {
    length,
    points,
    at: (distance) => {
      const s = Math.min(Math.max(distance, 0), length);
      let low = 0;
      let high = along.length - 1;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if ((along[middle] ?? 0) <= s) low = middle;
        else high = middle;
      }
      const a = points[low] ?? first;
      const b = points[high] ?? last;
      const span = (along[high] ?? 0) - (along[low] ?? 0);
      const u = span > 0 ? (s - (along[low] ?? 0)) / span : 0;
      return { x: a.x + (b.x - a.x) * u, y: a.y + (b.y - a.y) * u, heading: direction(b.y - a.y, b.x - a.x) };
    },
  };
}
