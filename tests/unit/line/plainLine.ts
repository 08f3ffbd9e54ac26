import type { Course } from '../../../src/course/course.ts';
import { mannerOf } from '../../../src/course/kinds.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { distance, from, lengthOf, plainHeading, type Pose } from '../../../src/course/pose.ts';
import { drawnSteps } from '../../../src/course/sequence.ts';
import { drawnSizes } from '../../../src/course/equipment.ts';
import { tunnelLine } from '../../../src/course/tunnelLine.ts';
import type { LikelyLine, LineStep, LineStretch } from '../../../src/line/line.ts';

const takeOff = 1.7;
const landing = 1.4;

/** A line that takes everything squarely and bends from one to the next, with landings as they are said to be. */
export function plainLine(course: Course, landings: ReadonlyMap<number, Pose> = new Map()): LikelyLine {
  const steps = drawnSteps(course).map(({ step, obstacle, stand, entry, exit }): LineStep => {
    const jumped = mannerOf(obstacle.kind) === 'jumped';
    const inPose = jumped ? ahead(entry, -takeOff) : entry;
    const outPose = landings.get(step.number) ?? (jumped ? ahead(exit, landing) : exit);
    const tube = tunnelLine(stand, drawnSizes(obstacle.kind, obstacle.sizes).tunnelLength);
    return {
      number: step.number,
      obstacleId: obstacle.id,
      kind: obstacle.kind,
      entry: inPose,
      exit: outPose,
      through:
        obstacle.kind === 'tunnel'
          ? step.direction === 'forward'
            ? tube
            : tube.toReversed()
          : [inPose, outPose],
      offset: 0,
      sliceDegrees: 0,
      inAt: 0,
      outAt: 0,
    };
  });
  const [first] = steps;
  const start = first && ahead(first.entry, -2);
  const stretches = steps.map((step, i): LineStretch => {
    const before = steps[i - 1];
    return between(before?.number ?? null, step.number, before?.exit ?? start ?? step.entry, step.entry);
  });
  const last = steps.at(-1);
  const all = last ? [...stretches, between(last.number, null, last.exit, ahead(last.exit, 2))] : stretches;
  return { steps, stretches: all, length: all.reduce((sum, s) => sum + s.length, 0), seconds: 0 };
}

const ahead = (p: Pose, along: number): Pose => ({ ...from(p, along), headingDegrees: p.headingDegrees });

/** A cubic that leaves and arrives as the poses run (Hermite). */
function between(fromNumber: number | null, to: number | null, a: Pose, b: Pose): LineStretch {
  const pull = distance(a, b);
  const [c, d] = [from(a, pull / 3), from(b, -pull / 3)];
  const points = Array.from({ length: 25 }, (_, i): GroundPoint => {
    const [t, u] = [i / 24, 1 - i / 24];
    const at = (k: 'x' | 'y'): number =>
      u * u * u * a[k] + 3 * u * u * t * c[k] + 3 * u * t * t * d[k] + t * t * t * b[k];
    return { x: at('x'), y: at('y') };
  });
  return {
    from: fromNumber,
    to,
    points,
    length: lengthOf(points),
    seconds: 0,
    turnDegrees: plainHeading(b.headingDegrees - a.headingDegrees),
    radius: null,
    blocked: false,
  };
}
