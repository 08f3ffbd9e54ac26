import { drawnSizes } from '../course/equipment.ts';
import type { Course, Obstacle, Stand } from '../course/course.ts';
import { footprint, type Quad } from '../course/footprint.ts';
import type { GroundPoint } from '../course/points.ts';
import { distance, from, headingTo } from '../course/pose.ts';
import { tunnelLine } from '../course/tunnelLine.ts';
import { pointsKept } from '../line/thin.ts';

/** Metres from the middle of a handler to whatever stands there: she runs past it, not through it. */
const elbow = 0.35;

/** Ground that a handler cannot run over: equipment with the room her body takes, corners in one sense of rotation. */
export type Solid = readonly Quad[];

/** The ground of all equipment that stands, as a handler has to go round it. */
export function solidGround(course: Pick<Course, 'obstacles'>): Solid {
  return course.obstacles.flatMap((o) => (o.stand ? quadsOf(o, o.stand).map((q) => widened(q, elbow)) : []));
}

function quadsOf(o: Obstacle, stand: Stand): readonly Quad[] {
  if (o.kind !== 'tunnel') return footprint(o, stand);
  // A bent tunnel in few straight pieces: a hand's breadth matters to nobody who runs round it.
  const { tunnelDiameter, tunnelLength } = drawnSizes(o.kind, o.sizes);
  const half = tunnelDiameter / 2;
  const fine = tunnelLine(stand, tunnelLength);
  const x = (i: number): number => fine[i]?.x ?? 0;
  const y = (i: number): number => fine[i]?.y ?? 0;
  const kept = pointsKept(fine.length, x, y, 0.1);
  const line = fine.filter((_, i) => kept[i] === 1);
  return line.slice(1).flatMap((b, i): Quad[] => {
    const a = line[i];
    if (!a) return [];
    const headingDegrees = headingTo(a, b);
    const [there, end] = [
      { ...a, headingDegrees },
      { ...b, headingDegrees },
    ];
    return [[from(there, 0, -half), from(end, 0, -half), from(end, 0, half), from(there, 0, half)]];
  });
}

/** A rectangle with so many metres more on each side. */
function widened(quad: Quad, metres: number): Quad {
  const [a, b, c, d] = quad;
  const along = unit(a, b);
  const aside = unit(a, d);
  const out = (p: GroundPoint, u: number, v: number): GroundPoint => ({
    x: p.x + metres * (u * along.x + v * aside.x),
    y: p.y + metres * (u * along.y + v * aside.y),
  });
  return [out(a, -1, -1), out(b, 1, -1), out(c, 1, 1), out(d, -1, 1)];
}

function unit(a: GroundPoint, b: GroundPoint): GroundPoint {
  const long = distance(a, b) || 1;
  return { x: (b.x - a.x) / long, y: (b.y - a.y) / long };
}

/**
 * The shortest way from one spot to another round what is solid, through corners that can be seen from one another
 * (Lozano-Pérez and Wesley 1979, Dijkstra 1959). Only equipment that lies in the way is looked at. Equipment in whose
 * room a spot lies does not hold that spot up. Where there is no way round, the straight one.
 */
export function wayRound(a: GroundPoint, b: GroundPoint, solid: Solid): readonly GroundPoint[] {
  const standing = solid.filter((quad) => !within(a, quad) && !within(b, quad));
  const used = new Set<Quad>();
  let way: readonly GroundPoint[] = [a, b];
  for (;;) {
    const met = standing.filter((quad) => !used.has(quad) && way.some((p, i) => hits(p, way[i + 1], quad)));
    if (met.length === 0) return way;
    for (const quad of met) used.add(quad);
    const corners = [...used].flat().filter((p) => !standing.some((quad) => within(p, quad)));
    const found = shortest([a, b, ...corners], [...used]);
    if (!found) return [a, b];
    way = found;
  }
}

/** The shortest way from the first point to the second over the others (Dijkstra); null where there is none. */
function shortest(points: readonly GroundPoint[], quads: readonly Quad[]): readonly GroundPoint[] | null {
  const [start] = points;
  if (!start) return null;
  const far = points.map(() => Infinity);
  const before = points.map(() => -1);
  const open = new Set(points.keys());
  far[0] = 0;
  while (open.size > 0) {
    let at = -1;
    for (const i of open) if (at < 0 || (far[i] ?? Infinity) < (far[at] ?? Infinity)) at = i;
    const here = points[at];
    const gone = far[at] ?? Infinity;
    if (!here || gone === Infinity) return null;
    if (at === 1) return backFrom(points, before);
    open.delete(at);
    for (const i of open) {
      const there = points[i];
      if (!there) continue;
      const sum = gone + distance(here, there);
      if (sum >= (far[i] ?? Infinity) || quads.some((quad) => hits(here, there, quad))) continue;
      far[i] = sum;
      before[i] = at;
    }
  }
  return null;
}

function backFrom(points: readonly GroundPoint[], before: readonly number[]): readonly GroundPoint[] {
  const way: GroundPoint[] = [];
  for (let i = 1; i >= 0; i = before[i] ?? -1) {
    const p = points[i];
    if (p) way.unshift(p);
  }
  return way;
}

const dust = 1e-6;

/** Inside a convex quad, its edge not counted. */
function within(p: GroundPoint, quad: Quad): boolean {
  return quad.every((a, i) => {
    const b = quad[(i + 1) % 4] ?? a;
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > dust;
  });
}

/** True where a straight way goes through the inside of a convex quad (clipped edge by edge, Cyrus and Beck 1978). */
function hits(a: GroundPoint, b: GroundPoint | undefined, quad: Quad): boolean {
  if (!b) return false;
  let [from, to] = [0, 1];
  for (let i = 0; i < 4; i++) {
    const p = quad[i] ?? a;
    const q = quad[(i + 1) % 4] ?? p;
    const inside = (r: GroundPoint): number => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    const [at, over] = [inside(a), inside(b)];
    if (at <= dust && over <= dust) return false;
    if (at < 0 && over > 0) from = Math.max(from, at / (at - over));
    if (at > 0 && over < 0) to = Math.min(to, at / (at - over));
  }
  return to - from > dust;
}
