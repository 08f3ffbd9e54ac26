import { conesOf } from '../ground/cones.ts';
import type { Course } from '../ground/equipment.ts';
import { gateOf } from '../ground/gate.ts';

/** The course as a document of its own. */
export function courseTruth(course: Course): object {
  const cones = conesOf(course);
  return {
    schema: 'simulator-course',
    version: 1,
    note: 'Metres. x along the ring, y away from the camera side, angles in radians anticlockwise from +x.',
    name: course.name,
    ring: course.ring,
    start: course.start,
    footing: course.footing ?? 'dryGrass',
    obstacles: course.obstacles.map((o) => ({
      id: o.id,
      kind: o.kind,
      nickname: o.nickname,
      x: o.x,
      y: o.y,
      angle: o.angle,
      sizes: o.sizes,
      bends: o.bends ?? null,
      numbers: course.places
        .filter((p) => p.obstacleId === o.id)
        .map((p) => ({ number: p.number, reversed: p.reversed, approach: gateOf(course, p).axis })),
    })),
    sequence: course.places.map((p) => {
      const gate = gateOf(course, p);
      const cone = cones.find((c) => c.number === p.number);
      return {
        number: p.number,
        obstacleId: p.obstacleId,
        reversed: p.reversed,
        approach: gate.axis,
        entry: [gate.x, gate.y],
        exit: [gate.exitX, gate.exitY],
        exitHeading: gate.exitHeading,
        cone: cone ? [cone.x, cone.y] : null,
      };
    }),
  };
}
