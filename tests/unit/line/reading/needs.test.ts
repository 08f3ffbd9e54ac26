import { expect, test } from 'vitest';
import { countedCourse } from '../../../../src/course/course.ts';
import { needs } from '../../../../src/line/reading/needs.ts';
import {
  KeptReadingThresholds,
  ReadingThresholds,
  readingThresholds,
} from '../../../../src/line/reading/thresholds.ts';
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

test('thresholds that were kept by another program cost no more than what does not fit', () => {
  const usual = ReadingThresholds.parse({});
  const kept = (value: unknown) => KeptReadingThresholds.parse(value);
  expect(
    kept({ viewHalf: 60, trapReach: 1e9, eyeHeight: NaN, fewTries: 2.5, sliceFrom: '20', colour: 1 }),
  ).toEqual({
    ...usual,
    viewHalf: 60,
  });
  expect(kept(JSON.parse('{"__proto__": {"viewHalf": 60}, "viewHalf": null}'))).toEqual(usual);
  for (const none of [undefined, null, 'x', 7, [45], NaN]) expect(kept(none)).toEqual(usual);
});
