import { expect, test } from 'vitest';
import { countedCourse } from '../../../../src/course/course.ts';
import { needs } from '../../../../src/line/reading/needs.ts';
import { ReadingThresholds, readingThresholds } from '../../../../src/line/reading/thresholds.ts';
import { courseOf } from '../../course/courses.ts';
import { demoCourse } from '../../course/file/demoCourse.ts';

test('a course of numbers only says what it would need', () => {
  expect(needs(countedCourse(3))).toEqual([
    { need: 'ring' },
    { need: 'kinds', numbers: [1, 2, 3] },
    { need: 'places', numbers: [1, 2, 3] },
  ]);
  expect(needs(courseOf([]))).toEqual([{ need: 'numbers' }, { need: 'ring' }]);
  expect(needs(demoCourse())).toEqual([]);
});

test('a number whose obstacle is gone lacks kind and place', () => {
  const course = courseOf([{ at: [0, 0] }, { at: [5, 0] }], { ring: { width: 20, length: 20 } });
  expect(needs({ ...course, obstacles: course.obstacles.slice(1) })).toEqual([
    { need: 'kinds', numbers: [1] },
    { need: 'places', numbers: [1] },
  ]);
});

test('thresholds have a default within their bounds and refuse what lies outside', () => {
  const usual = ReadingThresholds.parse({});
  for (const [name, { least, usual: value, most, why }] of Object.entries(readingThresholds)) {
    expect(usual[name as keyof ReadingThresholds]).toBe(value);
    expect(value).toBeGreaterThanOrEqual(least);
    expect(value).toBeLessThanOrEqual(most);
    expect(why.length).toBeGreaterThan(10);
    for (const bad of [least - 0.01, most + 0.01, NaN, Infinity, '45', null])
      expect(ReadingThresholds.safeParse({ [name]: bad }).success, `${name} ${bad}`).toBe(false);
  }
  expect(ReadingThresholds.safeParse({ colour: 1 }).success).toBe(false);
});
