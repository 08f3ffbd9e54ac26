import { describe, expect, it } from 'vitest';
import { checkCopy, evenGap } from '../../../src/footage/copyCheck.ts';
import { frameTable } from '../../../src/time/frameTable.ts';

const table = (num: number, den: number, ticks: number[]): ReturnType<typeof frameTable> =>
  frameTable({ num, den }, ticks);

describe('the check of a copy', () => {
  it('holds across time bases and states the shift in ticks of the original', () => {
    const original = table(1, 600, [433, 453, 480]);
    expect(checkCopy(original, table(1, 600, [0, 20, 47]))).toEqual({ equal: true, shift: -433 });
    expect(checkCopy(original, table(1, 1200, [0, 40, 94]))).toEqual({ equal: true, shift: -433 });
    expect(checkCopy(table(1001, 30000, [0, 1, 2]), table(1, 30000, [0, 1001, 2002]))).toEqual({
      equal: true,
      shift: 0,
    });
    expect(checkCopy(original, table(1, 600, [3, 23, 50]))).toEqual({ equal: true, shift: -430 });
  });

  it('fails on one frame too few, one too many, or one off by a tick', () => {
    const original = table(1, 90000, [0, 3003, 6006]);
    expect(checkCopy(original, table(1, 90000, [0, 3003]))).toEqual({ equal: false, count: [3, 2] });
    expect(checkCopy(original, table(1, 90000, [0, 3003, 6006, 9009]))).toEqual({
      equal: false,
      count: [3, 4],
    });
    expect(checkCopy(original, table(1, 90000, [0, 3003, 6007]))).toEqual({ equal: false, frame: 2 });
    expect(checkCopy(original, table(1, 180000, [0, 6006, 12011]))).toEqual({ equal: false, frame: 2 });
  });

  it('is exact where floating point is not', () => {
    const far = 2 ** 52;
    const original = table(1, 1_000_000_000, [far, far + 1, far + 3]);
    expect(checkCopy(original, table(1, 1_000_000_000, [0, 1, 3]))).toEqual({ equal: true, shift: -far });
    expect(checkCopy(original, table(1, 1_000_000_000, [0, 1, 2]))).toEqual({ equal: false, frame: 2 });
  });

  it('fails where the first frame lies between two ticks of the original', () => {
    expect(checkCopy(table(1, 25, [0, 1]), table(1, 50, [1, 3]))).toEqual({ equal: false, frame: 0 });
  });
});

describe('an even gap', () => {
  it('is there only where all gaps are the same', () => {
    expect(evenGap(table(1, 25, [4, 7, 10]))).toBe(3);
    expect(evenGap(table(1, 25, [4, 7, 11]))).toBeNull();
    expect(evenGap(table(1, 25, [4]))).toBeNull();
  });
});
