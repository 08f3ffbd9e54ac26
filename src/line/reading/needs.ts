import type { Course } from '../../course/course.ts';
import { notDrawn } from '../../course/courseLength.ts';

/** Something a course would have to tell before it can be read, with the numbers at which it does not. */
export type Need =
  | { readonly need: 'numbers' | 'ring' }
  | { readonly need: 'kinds' | 'places'; readonly numbers: readonly number[] };

/** What is missing for reading a course; empty where nothing is. A line needs two numbers that stand on the grass. */
export function needs(course: Course): readonly Need[] {
  const kinds = new Map(course.obstacles.map((o) => [o.id, o.kind]));
  const numbers = course.steps
    .filter((s) => (kinds.get(s.obstacleId) ?? 'unknown') === 'unknown')
    .map((s) => s.number);
  const places = notDrawn(course);
  return [
    ...(course.steps.length < 2 ? [{ need: 'numbers' } as const] : []),
    ...(course.ring ? [] : [{ need: 'ring' } as const]),
    ...(numbers.length > 0 ? [{ need: 'kinds', numbers } as const] : []),
    ...(places.length > 0 ? [{ need: 'places', numbers: places } as const] : []),
  ];
}
