import type { Course } from './course.ts';
import { drawnSizes } from './equipment.ts';
import type { GroundPoint } from './points.ts';
import { lengthOf } from './pose.ts';
import { drawnSteps, type DrawnStep } from './sequence.ts';
import { middleOf, tunnelLine } from './tunnelLine.ts';

/** A length of the course in metres, or why there is none and the numbers it fails at. */
export type LengthFound =
  | { readonly known: true; readonly metres: number }
  | {
      readonly known: false;
      readonly why: 'notDrawn' | 'fewNumbers' | 'noWheelPath';
      readonly numbers: readonly number[];
    };

/** Both ways in which bodies measure a course. They differ, and a rule book says which one it means. */
export interface CourseLengths {
  /** Straight from the centre of one obstacle to the centre of the next, first number to last. */
  readonly centres: LengthFound;
  /** Along the path where the wheel was rolled. */
  readonly wheelPath: LengthFound;
}

/** Measures a course in both ways, as far as it is drawn. */
export function courseLengths(course: Course): CourseLengths {
  const path = course.wheelPath;
  return {
    centres: alongCentres(course),
    wheelPath: path
      ? { known: true, metres: lengthOf(path) }
      : { known: false, why: 'noWheelPath', numbers: [] },
  };
}

/** Numbers whose obstacle does not stand on the grass. */
export function notDrawn(course: Course): number[] {
  const drawn = new Set(drawnSteps(course).map((s) => s.step.number));
  return course.steps.map((s) => s.number).filter((n) => !drawn.has(n));
}

function alongCentres(course: Course): LengthFound {
  const numbers = notDrawn(course);
  if (numbers.length > 0) return { known: false, why: 'notDrawn', numbers };
  const steps = drawnSteps(course);
  if (steps.length < 2) return { known: false, why: 'fewNumbers', numbers: steps.map((s) => s.step.number) };
  return { known: true, metres: lengthOf(steps.map(centreOf)) };
}

/** The centre of a piece on the ground; of a tunnel, half way along its centre line. */
export function centreOf({ obstacle, stand }: Pick<DrawnStep, 'obstacle' | 'stand'>): GroundPoint {
  return obstacle.kind === 'tunnel'
    ? middleOf(tunnelLine(stand, drawnSizes(obstacle.kind, obstacle.sizes).tunnelLength))
    : stand;
}
