import type { Course, CourseTiming } from '../../../../src/course/course.ts';

type Part = { readonly [K in keyof CourseTiming]?: CourseTiming[K] | undefined };

/** The course with other facts for its times; what is undefined is not said any more. */
export function withTiming(course: Course, part: Part): Course {
  const { timing: before, ...rest } = course;
  const all = Object.entries({ ...before, ...part }).filter(([, value]) => value !== undefined);
  return all.length === 0 ? rest : { ...rest, timing: Object.fromEntries(all) };
}

/** A number as it is typed, with a point or a comma: to the hundredth; undefined where nothing is, null where it is none. */
export function typedNumber(text: string, least: number, most: number): number | undefined | null {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return undefined;
  const value = Math.round(Number(plain) * 100) / 100;
  return value >= least && value <= most ? value : null;
}
