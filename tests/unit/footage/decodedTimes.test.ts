import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { orderTimes } from '../../../src/footage/decodedTimes.ts';

describe('times as decoded', () => {
  it('are taken as the container states them where they rise', () => {
    const { ticks, guessed, leftOut } = orderTimes({ stated: [0, 2, 5], made: [0, 3, 6], usual: 1 });
    expect([ticks, guessed, leftOut]).toEqual([[0, 2, 5], 0, 0]);
  });

  it('are those of the decoder where the container is silent or turns back', () => {
    expect(orderTimes({ stated: [null, 2, null], made: [1, 2, 3], usual: 1 }).ticks).toEqual([1, 2, 3]);
    expect(orderTimes({ stated: [0, 2, 2], made: [0, 2, 4], usual: 2 })).toEqual({
      ticks: [0, 2, 4],
      guessed: 0,
      leftOut: 0,
    });
  });

  it('are filled in evenly between, before and after known ones', () => {
    const made = [null, 10, null, null, 16, null];
    expect(orderTimes({ stated: made, made, usual: 3 })).toEqual({
      ticks: [7, 10, 12, 14, 16, 19],
      guessed: 4,
      leftOut: 0,
    });
  });

  it('leave frames out where there is no room or no progress', () => {
    const made = [0, 5, 5, 3, null, 6, 7];
    // Between 3 and 6 there is room, but 5 has been shown by then; of 4 and 6 only 6 comes after it.
    expect(orderTimes({ stated: made, made, usual: 1 })).toEqual({
      ticks: [0, 5, 6, 7],
      guessed: 1,
      leftOut: 3,
    });
    const tight = [0, null, 1];
    expect(orderTimes({ stated: tight, made: tight, usual: 1 })).toEqual({
      ticks: [0, 1],
      guessed: 0,
      leftOut: 1,
    });
  });

  it('count up where nothing is known', () => {
    const made = [null, null, null];
    expect(orderTimes({ stated: made, made, usual: 40 }).ticks).toEqual([0, 40, 80]);
    expect(orderTimes({ stated: made, made, usual: null }).ticks).toEqual([0, 1, 2]);
  });

  it('always rise, and no frame is lost count of', () => {
    const time = fc.option(fc.integer({ min: -1000, max: 1000 }), { nil: null });
    fc.assert(
      fc.property(
        fc.array(time, { minLength: 1, maxLength: 60 }),
        fc.option(fc.integer({ min: 1, max: 50 }), { nil: null }),
        (made, usual) => {
          const { ticks, leftOut } = orderTimes({ stated: made, made, usual });
          expect(
            ticks.every((at, i) => Number.isSafeInteger(at) && (i === 0 || at > (ticks[i - 1] ?? Infinity))),
          ).toBe(true);
          expect(ticks.length + leftOut).toBe(made.length);
          expect(ticks.length).toBeGreaterThan(0);
        },
      ),
    );
  });
});
