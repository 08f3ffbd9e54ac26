import { cosine, direction, lengthOf, sine, wrapAngle } from '../base/exact.ts';
import type { GroundPoint } from './equipment.ts';

/** A smooth centre line through bend points, sampled by length. */
export interface TunnelLine {
  readonly length: number;
  readonly points: readonly GroundPoint[];
  at(distance: number): GroundPoint & { readonly heading: number };
  /** The way a body takes inside: the centre line with its corners rounded. Straight on beyond the mouths. */
  smooth(distance: number): GroundPoint;
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
    for (let k = 0; k < 64; k++) points.push(bend(a, b, c, d, k / 64));
  }
  points.push(last);
  const along = [0];
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1] ?? first;
    const b = points[i] ?? last;
    along.push((along[i - 1] ?? 0) + lengthOf(b.x - a.x, b.y - a.y));
  }
  const length = along[along.length - 1] ?? 0;
  const headings = points.map((_, i) => {
    const a = points[Math.max(0, i - 1)] ?? first;
    const b = points[Math.min(points.length - 1, i + 1)] ?? last;
    return direction(b.y - a.y, b.x - a.x);
  });
  const at = (distance: number): GroundPoint & { readonly heading: number } => {
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
    const from = headings[low] ?? 0;
    return {
      x: a.x + (b.x - a.x) * u,
      y: a.y + (b.y - a.y) * u,
      heading: wrapAngle(from + wrapAngle((headings[high] ?? 0) - from) * u),
    };
  };
  const beyond = (distance: number): GroundPoint => {
    const on = at(distance);
    const over = Math.max(0, distance - length) + Math.min(0, distance);
    return { x: on.x + over * cosine(on.heading), y: on.y + over * sine(on.heading) };
  };
  const rounded = (distance: number): GroundPoint => {
    let x = 0;
    let y = 0;
    for (const [off, weight] of rounding) {
      const q = beyond(distance + off);
      x += weight * q.x;
      y += weight * q.y;
    }
    return { x, y };
  };
  // The rounded way as a table, a centimetre a step, a metre beyond both mouths.
  const count = Math.ceil((length + 2) * 100);
  const tableX = new Float64Array(count + 2);
  const tableY = new Float64Array(count + 2);
  for (let i = 0; i < count + 2; i++) {
    const q = rounded(i / 100 - 1);
    tableX[i] = q.x;
    tableY[i] = q.y;
  }
  const smooth = (distance: number): GroundPoint => {
    const place = (distance + 1) * 100;
    if (place < 0 || place >= count) return rounded(distance);
    const i = Math.floor(place);
    const u = place - i;
    const x = tableX[i] ?? 0;
    const y = tableY[i] ?? 0;
    return { x: x + ((tableX[i + 1] ?? 0) - x) * u, y: y + ((tableY[i + 1] ?? 0) - y) * u };
  };
  return { length, points, at, smooth };
}

/** Weights of a bell over almost a metre each way. */
const rounding: readonly (readonly [number, number])[] = [
  [-0.75, 0.04],
  [-0.5, 0.12],
  [-0.25, 0.21],
  [0, 0.26],
  [0.25, 0.21],
  [0.5, 0.12],
  [0.75, 0.04],
];

/** The sharpest bend of the way inside, 1/m. */
export function sharpestBend(line: TunnelLine): number {
  const h = 0.12;
  let most = 0;
  for (let s = -0.3; s <= line.length + 0.3; s += 0.04) {
    const a = line.smooth(s - h);
    const b = line.smooth(s);
    const c = line.smooth(s + h);
    most = Math.max(most, lengthOf(a.x - 2 * b.x + c.x, a.y - 2 * b.y + c.y) / (h * h));
  }
  return most;
}
