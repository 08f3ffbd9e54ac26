import { mostNumbers, type Course } from '../../../../src/course/course.ts';
import type { Change, ReviewState } from '../../../../src/review/entities.ts';

/** The numbers of a course, and whether marks may add to them. */
export interface Numbers {
  readonly list: readonly number[];
  /** True where the course is only a count: then a mark past its end makes it longer. */
  readonly grows: boolean;
}

/** Reads the numbers of a course. A course of which nothing but the count is known grows with the marks. */
export function numbersOf(course: Course): Numbers {
  return {
    list: course.steps.map((s) => s.number).sort((a, b) => a - b),
    grows: !course.ring && course.obstacles.every((o) => o.kind === 'unknown' && !o.stand),
  };
}

/** The number after `place`; null after the last of a course that does not grow. */
export function numberAfter(numbers: Numbers, place: number): number | null {
  const later = numbers.list.find((n) => n > place);
  if (later !== undefined) return later;
  return numbers.grows && place < mostNumbers ? place + 1 : null;
}

/** True where a mark may stand at this number. */
export function hasRoom(numbers: Numbers, place: number): boolean {
  return numbers.list.includes(place) || (numbers.grows && place >= 1 && place <= mostNumbers);
}

/** The change that makes a bare count long enough for `place`; nothing where the number is there. */
export function roomFor(review: Pick<ReviewState, 'id' | 'course'>, place: number | undefined): Change[] {
  const { course } = review;
  const count = Math.max(0, ...course.steps.map((s) => s.number));
  if (place === undefined || place <= count || !numbersOf(course).grows) return [];
  const taken = new Set(course.obstacles.map((o) => o.id));
  const added = Array.from({ length: place - count }, (_, i) => {
    const number = count + 1 + i;
    let obstacleId = `o${number}`;
    while (taken.has(obstacleId)) obstacleId += 'x';
    taken.add(obstacleId);
    return { number, obstacleId };
  });
  return [
    {
      kind: 'course',
      id: review.id,
      body: {
        ...course,
        obstacles: [
          ...course.obstacles,
          ...added.map((a) => ({ id: a.obstacleId, kind: 'unknown' as const, nickname: '' })),
        ],
        steps: [...course.steps, ...added.map((a) => ({ ...a, direction: 'forward' as const }))],
      },
    },
  ];
}
