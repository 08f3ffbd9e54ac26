import { toSegment } from '../course/footprint.ts';
import type { GroundPoint } from '../course/points.ts';
import { distance, lengthOf } from '../course/pose.ts';

/** Points on each piece of a curve, from node to node. */
const fineness = 24;

/**
 * The line a coach wants: a cardinal spline through her nodes, as points. The slope at a node is `tension` times the way from
 * the node before it to the one behind it; ends go on as they came. 0 is straight from node to node, 1/2 the uniform spline of
 * Catmull and Rom (1974), 1 the roundest.
 */
export function wantedLine(nodes: readonly GroundPoint[], tension: number): readonly GroundPoint[] {
  const [first] = nodes;
  if (!first || nodes.length < 3 || tension === 0) return nodes;
  return [
    first,
    ...piecesOf(nodes, tension).flatMap((piece) =>
      Array.from({ length: fineness }, (_, k) => pointOn(piece, (k + 1) / fineness)),
    ),
  ];
}

/** Length of that curve, metres (Gauss and Legendre, five places in each of four parts of a piece). */
export function wantedLength(nodes: readonly GroundPoint[], tension: number): number {
  if (nodes.length < 3 || tension === 0) return lengthOf(nodes);
  let sum = 0;
  for (const piece of piecesOf(nodes, tension)) {
    for (let part = 0; part < 4; part++) {
      for (const [place, weight] of gauss) sum += (weight / 8) * speedOn(piece, (part + (1 + place) / 2) / 4);
    }
  }
  return sum;
}

/** Places and weights for five points between -1 and 1 (Abramowitz and Stegun 1964, table 25.4). */
const gauss: readonly (readonly [number, number])[] = [
  [0, 0.5688888888888889],
  [0.5384693101056831, 0.47862867049936647],
  [-0.5384693101056831, 0.47862867049936647],
  [0.906179845938664, 0.23692688505618908],
  [-0.906179845938664, 0.23692688505618908],
];

/** One piece: from and to, with the slope at each (Hermite). */
interface Piece {
  readonly a: GroundPoint;
  readonly b: GroundPoint;
  readonly slopeA: GroundPoint;
  readonly slopeB: GroundPoint;
}

function piecesOf(nodes: readonly GroundPoint[], tension: number): readonly Piece[] {
  const at = (i: number): GroundPoint => {
    const there = nodes[i];
    if (there) return there;
    // Beyond an end the line goes on as it came.
    const [end, inner] = i < 0 ? [nodes[0], nodes[1]] : [nodes.at(-1), nodes.at(-2)];
    return end && inner ? { x: 2 * end.x - inner.x, y: 2 * end.y - inner.y } : { x: 0, y: 0 };
  };
  const slope = (i: number): GroundPoint => ({
    x: tension * (at(i + 1).x - at(i - 1).x),
    y: tension * (at(i + 1).y - at(i - 1).y),
  });
  return nodes.slice(1).map((b, i) => ({ a: at(i), b, slopeA: slope(i), slopeB: slope(i + 1) }));
}

function pointOn({ a, b, slopeA, slopeB }: Piece, t: number): GroundPoint {
  const [t2, t3] = [t * t, t * t * t];
  const on = (p: number, q: number, m: number, n: number): number =>
    (2 * t3 - 3 * t2 + 1) * p + (t3 - 2 * t2 + t) * m + (3 * t2 - 2 * t3) * q + (t3 - t2) * n;
  return { x: on(a.x, b.x, slopeA.x, slopeB.x), y: on(a.y, b.y, slopeA.y, slopeB.y) };
}

function speedOn({ a, b, slopeA, slopeB }: Piece, t: number): number {
  const on = (p: number, q: number, m: number, n: number): number =>
    (6 * t * t - 6 * t) * (p - q) + (3 * t * t - 4 * t + 1) * m + (3 * t * t - 2 * t) * n;
  return Math.hypot(on(a.x, b.x, slopeA.x, slopeB.x), on(a.y, b.y, slopeA.y, slopeB.y));
}

/** Where a line passes a place: metres along it from its beginning, and metres from the place. */
export interface Passing {
  readonly metres: number;
  readonly aside: number;
}

/**
 * Where a line passes places in their order, such as the numbers of a course: of all points of the line in that
 * order, those for which the squares of the distances come to the least together. The difference of two is the
 * stretch between them. Empty where the line has no points.
 */
export function passingsOf(line: readonly GroundPoint[], places: readonly GroundPoint[]): readonly Passing[] {
  const points = spread(line, 0.1);
  if (points.length === 0) return [];
  const back = places.map(() => new Int32Array(points.length));
  let before = new Float64Array(points.length);
  places.forEach((place, i) => {
    const here = new Float64Array(points.length);
    let least = Infinity;
    let by = 0;
    points.forEach((point, k) => {
      const one = before[k] ?? 0;
      if (one < least) {
        least = one;
        by = k;
      }
      const steps = back[i];
      if (steps) steps[k] = by;
      here[k] = least + distance(point, place) ** 2;
    });
    before = here;
  });
  const along = [0];
  points.forEach((p, k) => {
    const last = points[k - 1];
    if (last) along.push((along[k - 1] ?? 0) + distance(last, p));
  });
  let at = before.indexOf(Math.min(...before));
  const found: Passing[] = [];
  for (let i = places.length - 1; i >= 0; i--) {
    const [place, point] = [places[i], points[at]];
    if (place && point) found.unshift({ metres: along[at] ?? 0, aside: distance(place, point) });
    at = back[i]?.[at] ?? 0;
  }
  return found;
}

/** How far one line lies from another, metres: on the mean along the first, and at the most of either. */
export function apart(
  a: readonly GroundPoint[],
  b: readonly GroundPoint[],
): { readonly mean: number; readonly most: number } {
  const [there, back] = [distancesTo(a, b), distancesTo(b, a)];
  if (there.length === 0 || back.length === 0) return { mean: Infinity, most: Infinity };
  const most = [...there, ...back].reduce((m, d) => Math.max(m, d), 0);
  return { mean: there.reduce((sum, d) => sum + d, 0) / there.length, most };
}

const distancesTo = (line: readonly GroundPoint[], other: readonly GroundPoint[]): readonly number[] =>
  spread(line, 0.2).map((p) =>
    other.reduce((least, q, i) => Math.min(least, toSegment(p, other[i - 1] ?? q, q)), Infinity),
  );

/** So many points stand for a line at the most. */
const mostPoints = 4000;

/** A line as points no further apart than `metres`, or than its length allows for. */
function spread(line: readonly GroundPoint[], metres: number): readonly GroundPoint[] {
  const step = Math.max(metres, lengthOf(line) / mostPoints);
  return line.flatMap((p, i) => {
    const last = line[i - 1];
    if (!last) return [p];
    const parts = Math.max(1, Math.ceil(distance(last, p) / step));
    return Array.from({ length: parts }, (_, k) => ({
      x: last.x + ((k + 1) / parts) * (p.x - last.x),
      y: last.y + ((k + 1) / parts) * (p.y - last.y),
    }));
  });
}
