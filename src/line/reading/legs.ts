import type { Course } from '../../course/course.ts';
import { drawnSteps, type DrawnStep } from '../../course/sequence.ts';
import type { LikelyLine, LineStep, LineStretch } from '../line.ts';
import { openingOf, type Opening } from './opening.ts';

/** A number as it stands on the course and as the line takes it. */
export interface Place {
  readonly drawn: DrawnStep;
  readonly line: LineStep;
  readonly opening: Opening;
}

/** From one number to the next. */
export interface Leg {
  readonly here: Place;
  readonly next: Place;
  readonly way: LineStretch;
}

/** The numbers that stand both on the course and in the line, in the line's order. */
export function placesOf(course: Course, line: LikelyLine): readonly Place[] {
  const drawn = new Map(drawnSteps(course).map((s) => [s.step.number, s]));
  return line.steps.flatMap((step): Place[] => {
    const there = drawn.get(step.number);
    if (!there || there.obstacle.id !== step.obstacleId) return [];
    return [
      { drawn: there, line: step, opening: openingOf(there.obstacle, there.stand, there.step.direction) },
    ];
  });
}

/** The legs between numbers that follow each other in the line; where the line has a hole there is none. */
export function legsOf(places: readonly Place[], line: LikelyLine): readonly Leg[] {
  const ways = new Map(line.stretches.map((s) => [s.from, s]));
  return places.slice(1).flatMap((next, i): Leg[] => {
    const here = places[i];
    const way = here && ways.get(here.line.number);
    return here && way?.to === next.line.number ? [{ here, next, way }] : [];
  });
}
