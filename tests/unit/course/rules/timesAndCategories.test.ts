import { describe, expect, test } from 'vitest';
import { categoryOf } from '../../../../src/course/rules/categories.ts';
import { courseTimes } from '../../../../src/course/rules/courseTime.ts';
import { fci2023 } from '../../../../src/course/rules/fci2023.ts';
import { hundredths } from '../../../../src/course/rules/hundredths.ts';
import { book, ours } from './books.ts';

describe('a dog’s height', () => {
  test.each([NaN, Infinity, -35, 0, 201])('%d is none', (height) => {
    expect(categoryOf(fci2023, height)).toEqual({ found: false, why: 'notAHeight' });
  });

  test('a book may leave dogs out, or say nothing', () => {
    const value = [{ id: 'M', name: 'Middle', from: 35, below: 43 }];
    const middle = book({ categories: { value, source: ours } });
    expect(categoryOf(middle, 34.99)).toEqual({ found: false, why: 'outside' });
    expect(categoryOf(middle, 43)).toEqual({ found: false, why: 'outside' });
    expect(categoryOf(book(), 40)).toEqual({ found: false, why: 'noEntry' });
  });
});

describe('course times', () => {
  test.each([NaN, -1, 0, Infinity])('a length or speed of %d is refused', (n) => {
    expect(() => courseTimes(fci2023, { length: n })).toThrow(RangeError);
    expect(() => courseTimes(fci2023, { judgesSpeed: n })).toThrow(RangeError);
  });

  test('say what is missing, one thing after the other', () => {
    const standard = (facts: Parameters<typeof courseTimes>[1]) => courseTimes(fci2023, facts).standard;
    expect(standard({})).toMatchObject({ known: false, missing: 'level' });
    expect(standard({ level: '1' })).toMatchObject({ known: false, missing: 'judgesSpeed' });
    expect(standard({ level: '1', judgesSpeed: 4 })).toMatchObject({ known: false, missing: 'length' });
    expect(standard({ level: '1', judgesSpeed: 4, length: 150 })).toMatchObject({ known: true, time: 3750 });
    expect(standard({ level: '3' })).toMatchObject({ known: false, missing: 'bestTime' });
    expect(courseTimes(fci2023, { length: 150 }).maximum).toMatchObject({ missing: 'discipline' });
  });

  test('what the judge stated goes before what the book gives, and says so', () => {
    const { standard } = courseTimes(fci2023, { level: '3', statedStandard: hundredths(42) });
    expect(standard).toMatchObject({ known: true, time: 4200, stated: true });
  });

  test('are brought to the unit that the book rounds to', () => {
    const rounded = (way: 'up' | 'nearest' | 'down') =>
      courseTimes(
        book({
          times: {
            standard: [
              {
                rule: {
                  value: { form: 'lengthOverSpeed', metresPerSecond: 3, rounding: { toSeconds: 1, way } },
                  source: ours,
                },
              },
            ],
          },
        }),
        // 46.67 s
        { length: 140 },
      ).standard;
    expect(rounded('up')).toMatchObject({ time: 4700 });
    expect(rounded('nearest')).toMatchObject({ time: 4700 });
    expect(rounded('down')).toMatchObject({ time: 4600 });
  });
});
