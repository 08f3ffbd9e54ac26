import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fieldsOf, framesOfFields, sameTable } from '../../../src/time/fields.ts';
import { frameSeconds, frameTable } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';

const table = (ticks: readonly number[]) => frameTable({ num: 1, den: 30_000 }, ticks);

test('each frame gives two: itself, and one exactly half-way to the next, odd gaps included', () => {
  const fields = fieldsOf(table([-1001, 0, 1001, 2502]));
  expect(fields.timeBase).toEqual({ num: 1, den: 60_000 });
  expect(fields.pts).toEqual([-2002, -1001, 0, 1001, 2002, 3503, 5004, 6505]);
});

test('first half-pictures stand where the frames stood, and the frames come back', () => {
  const gaps = fc.array(fc.integer({ min: 1, max: 1e6 }), { maxLength: 200 });
  fc.assert(
    fc.property(fc.integer({ min: -1e9, max: 1e9 }), gaps, (first, list) => {
      const ticks = [first];
      for (const gap of list) ticks.push((ticks.at(-1) ?? 0) + gap);
      const whole = table(ticks);
      const fields = fieldsOf(whole);
      expect(fields.pts).toHaveLength(2 * ticks.length);
      ticks.forEach((_, i) => {
        expect(frameSeconds(fields, frameIndex(2 * i))).toBe(frameSeconds(whole, frameIndex(i)));
      });
      expect(sameTable(framesOfFields(fields), whole)).toBe(true);
    }),
  );
});

test('a table that is none of half-pictures is refused', () => {
  expect(() => framesOfFields(table([0, 1000, 2000]))).toThrow(RangeError);
  expect(() => framesOfFields(frameTable({ num: 1, den: 25 }, [0, 1]))).toThrow(RangeError);
  expect(() => framesOfFields(table([0, 700, 2000, 3000]))).toThrow(RangeError);
});
