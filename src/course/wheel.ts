import { pointsKept } from '../line/thin.ts';
import type { GroundPoint } from './points.ts';

/** Most points that a wheel path keeps, as in the schema of a course. */
const most = 2000;

/**
 * A hand-drawn path with the points left out that lie within `tolerance` metres of the line without them. Null where
 * it went nowhere.
 */
export function wheelled(points: readonly GroundPoint[], tolerance = 0.04): readonly GroundPoint[] | null {
  const at = (i: number): GroundPoint => points[i] ?? { x: 0, y: 0 };
  const keep = pointsKept(
    points.length,
    (i) => at(i).x,
    (i) => at(i).y,
    tolerance,
  );
  const kept = points.filter((_, i) => keep[i] === 1);
  const plain = kept
    .slice(0, most)
    .map(({ x, y }) => ({ x: Math.round(x * 100) / 100, y: Math.round(y * 100) / 100 }));
  const [first] = plain;
  return first && plain.some((p) => p.x !== first.x || p.y !== first.y) ? plain : null;
}

/** The path rolled on by so many metres; a roll the same way lengthens the last piece. */
export function rolledOn(path: readonly GroundPoint[], dx: number, dy: number): readonly GroundPoint[] {
  const last = path.at(-1);
  const before = path.at(-2);
  if (!last) return path;
  const next = { x: last.x + dx, y: last.y + dy };
  const onward =
    before !== undefined &&
    Math.abs((last.x - before.x) * dy - (last.y - before.y) * dx) < 1e-9 &&
    (last.x - before.x) * dx + (last.y - before.y) * dy > 0;
  return onward ? [...path.slice(0, -1), next] : [...path, next];
}
