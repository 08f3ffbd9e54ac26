import { mostNumbers, type Course } from '../../../src/course/course.ts';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import type { PicturePoint } from '../../../src/course/points.ts';
import { placesOf, type Plan, type PlannedCross } from '../../../src/plan/plan.ts';
import type { ReviewState } from '../../../src/review/entities.ts';

/** The highest number of the course, 0 where there is none. */
export const highest = (course: Course): number => Math.max(0, ...course.steps.map((step) => step.number));

/** An id that no obstacle of the course has yet; the plain one for a number where it is free. */
function freeId(course: Course, number: number): string {
  const taken = new Set(course.obstacles.map((o) => o.id));
  let id = `o${number}`;
  for (let n = 2; taken.has(id); n++) id = `o${number}-${n}`;
  return id;
}

/**
 * The course with numbers 1 to `count`: new ones stand on new obstacles of unknown kind; those above go, and with
 * them the obstacles that carry no number any more. Drawn obstacles stay on the grass.
 */
export function withCount(course: Course, count: number): Course {
  const wanted = Math.max(0, Math.min(mostNumbers, Math.trunc(count)));
  let next: Course = { ...course, steps: course.steps.filter((step) => step.number <= wanted) };
  const used = new Set(next.steps.map((step) => step.obstacleId));
  next = { ...next, obstacles: next.obstacles.filter((o) => used.has(o.id) || o.stand !== undefined) };
  const there = new Set(next.steps.map((step) => step.number));
  for (let number = 1; number <= wanted; number++) {
    if (there.has(number)) continue;
    const id = freeId(next, number);
    next = {
      ...next,
      obstacles: [...next.obstacles, { id, kind: 'unknown', nickname: '' }],
      steps: [...next.steps, { number, obstacleId: id, direction: 'forward' }],
    };
  }
  return { ...next, steps: [...next.steps].sort((a, b) => a.number - b.number) };
}

/** Numbers on which marks, crosses and plans stand, once for each; 0 for those that stand on none. */
const placesStoodOn = (state: ReviewState): readonly number[] => [
  ...state.marks.map((mark) => ('place' in mark ? (mark.place ?? 0) : 0)),
  ...state.crosses.map((cross) => cross.place),
  ...placesOf(state.plan),
];

/** Marks, crosses and plans that stand on numbers above `count`: these numbers cannot go. */
export function standingAbove(state: ReviewState, count: number): number {
  return placesStoodOn(state).filter((place) => place > count).length;
}

/** The highest number on which a mark, a cross or a plan stands; 0 where none does. */
export function lastPlace(state: ReviewState): number {
  return placesStoodOn(state).reduce((most, place) => Math.max(most, place), 0);
}

/** The course with other facts about the obstacle that carries a number. All its numbers share them. */
export function withObstacle(
  course: Course,
  number: number,
  part: { readonly nickname?: string; readonly kind?: ObstacleKind },
): Course {
  const id = course.steps.find((step) => step.number === number)?.obstacleId;
  return { ...course, obstacles: course.obstacles.map((o) => (o.id === id ? { ...o, ...part } : o)) };
}

/** Other numbers on the same obstacle. */
export function sharing(course: Course, number: number): readonly number[] {
  const id = course.steps.find((step) => step.number === number)?.obstacleId;
  return course.steps.filter((s) => s.obstacleId === id && s.number !== number).map((s) => s.number);
}

const within = (v: number): number => Math.min(1, Math.max(0, v));

/** The course with a number put on a place of the picture; places outside are brought to its edge. */
export function withPlace(course: Course, number: number, at: PicturePoint): Course {
  const onPicture = { x: within(at.x), y: within(at.y) };
  return { ...course, steps: course.steps.map((s) => (s.number === number ? { ...s, onPicture } : s)) };
}

/** The first number, from `from` on and then from the start, that does not stand on the picture yet. */
export function nextUnplaced(course: Course, from = 1): number | undefined {
  const free = course.steps.filter((step) => !step.onPicture).map((step) => step.number);
  return free.find((number) => number >= from) ?? free[0];
}

/** The plan with one cross added or changed, in the order of the course. */
export function withCross(plan: Plan, cross: PlannedCross): Plan {
  const others = plan.crosses.filter((c) => c.id !== cross.id);
  const at = plan.crosses.findIndex((c) => c.id === cross.id);
  const crosses = at < 0 ? [...others, cross] : plan.crosses.map((c) => (c.id === cross.id ? cross : c));
  return { ...plan, crosses: [...crosses].sort((a, b) => a.place - b.place) };
}

export function withoutCross(plan: Plan, id: string): Plan {
  return { ...plan, crosses: plan.crosses.filter((c) => c.id !== id) };
}
