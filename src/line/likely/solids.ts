import type { Obstacle, Stand } from '../../course/course.ts';
import { drawnSizes } from '../../course/equipment.ts';
import { footprint, type Quad } from '../../course/footprint.ts';
import type { GroundPoint } from '../../course/points.ts';
import { from, headingTo } from '../../course/pose.ts';
import { tunnelLine } from '../../course/tunnelLine.ts';
import { pointsKept } from '../thin.ts';

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
  /** Id of the piece it belongs to. */
  readonly owner: string;
}

const known = new WeakMap<Obstacle, readonly Box[]>();

/**
 * The ground that a course's equipment keeps from a dog. An obstacle of unknown kind keeps none: nobody said what it
 * is. The same piece has the same boxes each time.
 */
export const solidsOf = (obstacles: readonly Obstacle[]): readonly Box[] => obstacles.flatMap(boxesOf);

/** The equipment as it stands now, for those who outlast its changes. */
export interface Solids {
  boxes: readonly Box[];
}

function boxesOf(o: Obstacle): readonly Box[] {
  if (!o.stand || o.kind === 'unknown') return [];
  const before = known.get(o);
  if (before) return before;
  const boxes = (o.kind === 'tunnel' ? tubeOf(o, o.stand) : footprint(o, o.stand)).map((quad) =>
    boxOf(quad, o.id),
  );
  known.set(o, boxes);
  return boxes;
}

/** A tunnel lies in short pieces; fewer that stray from its line by no more than this, metres, do as well. */
const tubeDust = 0.02;

/** The ground of a tunnel in as few pieces as keep to its line, each broader by what it strays. */
function tubeOf(o: Obstacle, stand: Stand): readonly Quad[] {
  const size = drawnSizes(o.kind, o.sizes);
  const line = tunnelLine(stand, size.tunnelLength);
  const at = (i: number): GroundPoint => line[i] ?? stand;
  const kept = pointsKept(
    line.length,
    (i) => at(i).x,
    (i) => at(i).y,
    tubeDust,
  );
  const points = line.filter((_, i) => kept[i] === 1);
  const half = size.tunnelDiameter / 2 + tubeDust;
  return points.slice(1).map((b, i): Quad => {
    const a = points[i] ?? b;
    const headingDegrees = headingTo(a, b);
    const [there, end] = [
      { ...a, headingDegrees },
      { ...b, headingDegrees },
    ];
    return [from(there, 0, -half), from(end, 0, -half), from(end, 0, half), from(there, 0, half)];
  });
}

function boxOf([a, b, c, d]: Quad, owner: string): Box {
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
    owner,
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

/**
 * True where a straight piece keeps `gap` metres from all boxes but those of one piece, found by stepping on as far as is
 * surely free.
 */
export function straightIsClear(
  boxes: readonly Box[],
  but: string,
  a: GroundPoint,
  b: GroundPoint,
  gap: number,
): boolean {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length = Math.sqrt(dx * dx + dy * dy);
  const mx = a.x + dx / 2;
  const my = a.y + dy / 2;
  for (const box of boxes) {
    const far = length / 2 + box.reach + gap;
    if (box.owner === but || (box.x - mx) * (box.x - mx) + (box.y - my) * (box.y - my) > far * far) continue;
    for (let at = 0; ;) {
      const t = length === 0 ? 0 : at / length;
      const free = toBox(box, a.x + t * dx, a.y + t * dy);
      if (free < gap - 1e-9) return false;
      if (at >= length) break;
      at = Math.min(length, at + Math.max(free - gap, leastStep));
    }
  }
  return true;
}

/** Steps along a way that may touch the gap, metres: between two of them it dips below by 2 mm at the most. */
export const leastStep = 0.04;
