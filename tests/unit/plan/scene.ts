import { Course } from '../../../src/course/course.ts';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { distance, headingTo } from '../../../src/course/pose.ts';
import type { LikelyLine, LineStep, LineStretch } from '../../../src/line/line.ts';

/** A course of jumps (or other kinds) on straight ground: `[x, y, headingDegrees, kind]` in order. */
export function courseAt(...places: [number, number, number?, ObstacleKind?][]): Course {
  return Course.parse({
    ring: { width: 40, length: 20 },
    obstacles: places.map(([x, y, headingDegrees = 0, kind = 'barJump'], i) => ({
      ...{ id: `o${i + 1}`, kind, stand: { x, y, headingDegrees } },
    })),
    steps: places.map((_, i) => ({ number: i + 1, obstacleId: `o${i + 1}` })),
  });
}

const stretch = (from: number | null, to: number | null, a: GroundPoint, b: GroundPoint, seconds: number) =>
  ({
    ...{ from, to, points: [a, b], length: distance(a, b), seconds },
    ...{ turnDegrees: 0, radius: null, blocked: false },
  }) satisfies LineStretch;

/**
 * A line of straight stretches at 5 m/s, on the ground and through the obstacles: `entries` and `exits` in order, from
 * `start`, and 5 m past the last.
 */
export function straightLine(
  start: GroundPoint,
  steps: readonly { entry: GroundPoint; exit: GroundPoint; kind?: ObstacleKind }[],
): LikelyLine {
  let at: GroundPoint = start;
  let t = 0;
  const stretches: LineStretch[] = [];
  const done: LineStep[] = steps.map(({ entry, exit, kind = 'barJump' }, i) => {
    const seconds = distance(at, entry) / 5;
    stretches.push(stretch(i === 0 ? null : i, i + 1, at, entry, seconds));
    const inAt = t + seconds;
    const outAt = inAt + distance(entry, exit) / 5;
    const headingDegrees = headingTo(entry, exit);
    at = exit;
    t = outAt;
    return {
      ...{ number: i + 1, obstacleId: `o${i + 1}`, kind, inAt, outAt, offset: 0, sliceDegrees: 0 },
      entry: { ...entry, headingDegrees },
      exit: { ...exit, headingDegrees },
      through: [entry, exit],
    };
  });
  stretches.push(stretch(steps.length, null, at, { x: at.x + 5, y: at.y }, 1));
  const length = stretches.reduce((sum, s) => sum + s.length, 0);
  return { steps: done, stretches, length, seconds: t + 1 };
}
