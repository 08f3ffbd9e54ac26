import type { Course, PostLine } from '../../../../src/course/course.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';

/**
 * The course turned a quarter counter-clockwise, so that a wide ring fills a narrow panel. What lies where to what
 * stays as it is; only the sheet is turned. A course without a ring has no shape to turn.
 */
export function turned(course: Course): Course {
  const { ring } = course;
  if (!ring) return course;
  const turn = ({ x, y }: GroundPoint): GroundPoint => ({ x: ring.length - y, y: x });
  const turnLine = ({ from, to }: PostLine): PostLine => ({ from: turn(from), to: turn(to) });
  return {
    ...course,
    ...(course.startLine ? { startLine: turnLine(course.startLine) } : {}),
    ...(course.finishLine ? { finishLine: turnLine(course.finishLine) } : {}),
    ring: { width: ring.length, length: ring.width },
    obstacles: course.obstacles.map((o) => {
      if (!o.stand) return o;
      const { headingDegrees, bend } = o.stand;
      const heading = headingDegrees + 90;
      return {
        ...o,
        stand: {
          ...turn(o.stand),
          headingDegrees: heading > 360 ? heading - 360 : heading,
          ...(bend ? { bend: bend.map(turn) } : {}),
        },
      };
    }),
  };
}

/** By how many degrees the sheet that `upright` makes is turned, counter-clockwise. */
export const uprightTurn = ({ ring }: Pick<Course, 'ring'>): number =>
  ring && ring.width > ring.length ? 90 : 0;

/** Where a point of the ground lies on the sheet that `upright` makes. */
export function uprightPoint({ ring }: Pick<Course, 'ring'>): (p: GroundPoint) => GroundPoint {
  return ring && ring.width > ring.length ? ({ x, y }) => ({ x: ring.length - y, y: x }) : (p) => p;
}

/** Turned where the ring is wider than it is long. */
export function upright(course: Course): Course {
  return course.ring && course.ring.width > course.ring.length ? turned(course) : course;
}
