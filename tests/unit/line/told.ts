import { expect } from 'vitest';
import type { Course } from '../../../src/course/course.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import type { LikelyLine, LineWish } from '../../../src/line/line.ts';
import { readCourse } from '../../../src/line/reading/readCourse.ts';
import type { Remark } from '../../../src/line/reading/remark.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { remarkSentence } from '../../../src/words/reading.ts';

/** Fails where anything in a value is a number and no figure. */
export function allFinite(value: unknown): void {
  JSON.stringify(value, (key, v: unknown) => {
    if (typeof v === 'number' && !Number.isFinite(v)) throw new Error(`${key} is ${v}`);
    return v;
  });
}

export interface Heard {
  readonly course: Course;
  readonly line: LikelyLine;
  readonly remarks: readonly Remark[];
  readonly sentences: readonly string[];
}

/** A course as a coach hears it: its likely line read aloud; every figure is one, every sentence is whole. */
export function heard(course: Course, more: Partial<LineWish> = {}): Heard {
  const runner = runnerWith();
  const line = likelyLine(course, { runner, ...more });
  if (!line) throw new Error('there is no line');
  const { remarks } = readCourse({ course, line, thresholds: ReadingThresholds.parse({}), runner });
  const sentences = remarks.map((r) => remarkSentence(r, { course, unit: 'metres', dialect: 'british' }));
  allFinite([line, remarks]);
  for (const sentence of sentences) {
    expect(sentence).toMatch(/^[A-Z].*\.$/s);
    expect(sentence).not.toMatch(/NaN|Infinity|undefined|null|something/);
  }
  return { course, line, remarks, sentences };
}

/** The course with more said of one number. */
export const withStep = (course: Course, number: number, more: Partial<Course['steps'][number]>): Course => ({
  ...course,
  steps: course.steps.map((s) => (s.number === number ? { ...s, ...more } : s)),
});
