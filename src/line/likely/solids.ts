import type { Obstacle } from '../../course/course.ts';
import { footprint, type Quad } from '../../course/footprint.ts';
import type { GroundPoint } from '../../course/points.ts';

/** A rectangle that something solid stands on. Metres; `cos` and `sin` of the way its length lies. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly cos: number;
  readonly sin: number;
  readonly halfLength: number;
  readonly halfBreadth: number;
  /** From its middle to its corners. */
  readonly reach: number;
  /** Which piece it belongs to: place in the course's list. */
  readonly owner: number;
}

const known = new WeakMap<Obstacle, readonly Omit<Box, 'owner'>[]>();

/** The ground that a course's equipment keeps from a dog. An obstacle of unknown kind keeps none: nobody said what it is. */
export function solidsOf(obstacles: readonly Obstacle[]): readonly Box[] {
  return obstacles.flatMap((o, owner) => boxesOf(o).map((box) => ({ ...box, owner })));
}

function boxesOf(o: Obstacle): readonly Omit<Box, 'owner'>[] {
  if (!o.stand || o.kind === 'unknown') return [];
  const before = known.get(o);
  if (before) return before;
  const boxes = footprint(o, o.stand).map(boxOf);
  known.set(o, boxes);
  return boxes;
}

function boxOf([a, b, c, d]: Quad): Omit<Box, 'owner'> {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const breadth = Math.hypot(d.x - a.x, d.y - a.y);
  // A piece of no length still lies some way: across its breadth.
  const [cos, sin] =
    length > 1e-9
      ? [(b.x - a.x) / length, (b.y - a.y) / length]
      : breadth > 1e-9
        ? [(d.y - a.y) / breadth, -(d.x - a.x) / breadth]
        : [1, 0];
  return {
    x: (a.x + c.x) / 2,
    y: (a.y + c.y) / 2,
    cos,
    sin,
    halfLength: length / 2,
    halfBreadth: breadth / 2,
    reach: Math.hypot(length, breadth) / 2,
  };
}

/** Metres from a point to a box; 0 on it. */
export function toBox(box: Box, x: number, y: number): number {
  const dx = x - box.x;
  const dy = y - box.y;
  const along = Math.abs(dx * box.cos + dy * box.sin) - box.halfLength;
  const aside = Math.abs(dy * box.cos - dx * box.sin) - box.halfBreadth;
  if (along <= 0) return aside <= 0 ? 0 : aside;
  return aside <= 0 ? along : Math.sqrt(along * along + aside * aside);
}

/** Metres from a point to the nearest of some boxes; Infinity where there are none. */
export const toNearest = (boxes: readonly Box[], { x, y }: GroundPoint): number =>
  boxes.reduce((least, box) => Math.min(least, toBox(box, x, y)), Infinity);

/** True where a straight piece keeps `gap` metres from all boxes, found by stepping on as far as is surely free. */
export function straightIsClear(boxes: readonly Box[], a: GroundPoint, b: GroundPoint, gap: number): boolean {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  for (let at = 0; ;) {
    const t = length === 0 ? 0 : at / length;
    const free = toNearest(boxes, { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) });
    if (free < gap - 1e-9) return false;
    if (at >= length) return true;
    at = Math.min(length, at + Math.max(free - gap, leastStep));
  }
}

/** Steps along a way that may touch the gap, metres: between two of them it dips below by 2 mm at the most. */
export const leastStep = 0.04;
