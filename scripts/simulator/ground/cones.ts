import { cosine, sine } from '../base/exact.ts';
import type { Course } from './equipment.ts';
import { gateOf } from './gate.ts';

/** Where the cone of each number stands: on the approach side, to the dog's right. */
export function conesOf(
  course: Course,
): { readonly number: number; readonly x: number; readonly y: number }[] {
  return course.places.map((place) => {
    const gate = gateOf(course, place);
    const c = cosine(gate.axis);
    const s = sine(gate.axis);
    const aside = gate.jump ? -1.45 : gate.obstacle.kind === 'aFrame' ? -0.95 : -0.8;
    const back = gate.jump ? -0.5 : -0.3;
    return { number: place.number, x: gate.x + back * c - aside * s, y: gate.y + back * s + aside * c };
  });
}
