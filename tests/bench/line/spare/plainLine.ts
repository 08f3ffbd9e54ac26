import type { Course } from '../../../../src/course/course.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { distance, from, headingTo } from '../../../../src/course/pose.ts';
import { drawnSteps } from '../../../../src/course/sequence.ts';
import type { LikelyLine, LineStep, LineStretch } from '../../../../src/line/line.ts';
import type { Measured } from './film.ts';

/** Straight from obstacle to obstacle. */
export function plainLine(course: Course, start: GroundPoint, dog: Measured['dog']): LikelyLine {
  const steps: LineStep[] = [];
  const stretches: LineStretch[] = [];
  let here = start;
  let t = 0;
  let fresh = true;
  const run = (number: number | null, to: GroundPoint): void => {
    const length = distance(here, to);
    const reach = (dog.topSpeed * dog.topSpeed) / (2 * dog.pickUp);
    const seconds = !fresh
      ? length / dog.topSpeed
      : length > reach
        ? length / dog.topSpeed + dog.topSpeed / (2 * dog.pickUp)
        : Math.sqrt((2 * length) / dog.pickUp);
    fresh = false;
    const points = [here, to];
    const before = steps.at(-1)?.number ?? null;
    stretches.push({
      from: before,
      to: number,
      points,
      length,
      seconds,
      turnDegrees: 0,
      radius: null,
      blocked: false,
    });
    t += seconds;
  };
  const drawn = drawnSteps(course);
  for (const [i, { step, obstacle, entry, exit }] of drawn.entries()) {
    const tunnel = obstacle.kind === 'tunnel';
    const headingDegrees = tunnel
      ? entry.headingDegrees
      : (headingTo(here, entry) + entry.headingDegrees) / 2;
    const a = tunnel ? entry : { ...from({ ...entry, headingDegrees }, -dog.takeOff), headingDegrees };
    const next = drawn[i + 1];
    const b = tunnel ? exit : { ...from({ ...exit, headingDegrees }, dog.landing), headingDegrees };
    run(step.number, a);
    const inAt = t;
    t += distance(a, b) / (tunnel ? dog.tunnelSpeed : dog.topSpeed);
    steps.push({
      ...{
        number: step.number,
        obstacleId: obstacle.id,
        kind: obstacle.kind,
        entry: a,
        exit: b,
        through: [a, b],
      },
      ...{ offset: 0, sliceDegrees: 0, inAt, outAt: t },
    });
    here = b;
    if (!next) run(null, from(b, 3));
  }
  return { steps, stretches, length: stretches.reduce((s, x) => s + x.length, 0), seconds: t };
}
