import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkSpeedMap } from '../../../src/time/captureClock.ts';
import {
  frameAt,
  frameAtSeconds,
  frameSeconds,
  frameStartingAt,
  frameTable,
  lastFrame,
  middleOfFrame,
  ptsOf,
} from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { frameIndex, pts } from '../../../src/time/units.ts';

const table = frameTable({ num: 1001, den: 30000 }, [-2, 0, 1, 5, 6]);

describe('frame table', () => {
  it('finds the frame shown at a time: the last one that has started', () => {
    expect(frameAt(table, pts(4))).toBe(2);
    expect(frameAt(table, pts(5))).toBe(3);
    expect(frameAt(table, pts(-50))).toBe(0);
    expect(frameAt(table, pts(900))).toBe(4);
  });

  it('knows where no frame starts', () => {
    expect(frameStartingAt(table, pts(5))).toBe(3);
    expect(frameStartingAt(table, pts(4))).toBeUndefined();
  });

  it('names the frame that is out of order', () => {
    expect(() => frameTable({ num: 1, den: 25 }, [0, 1, 1])).toThrow(/Frame 2 does not come after frame 1/);
    expect(() => frameTable({ num: 1, den: 25 }, [])).toThrow(/no frame/);
    expect(() => frameTable({ num: 1, den: 25 }, [0, 0.5])).toThrow(/whole number/);
    expect(() => frameTable({ num: 1, den: 25 }, [0, NaN])).toThrow(/whole number/);
    expect(() => frameTable({ num: 0, den: 25 }, [0])).toThrow(/time base/);
    expect(() => timeBase(1, 2.5)).toThrow(RangeError);
  });

  it('refuses a frame that is not there', () => {
    expect(() => ptsOf(table, frameIndex(5))).toThrow(/no frame 5/);
    expect(() => frameIndex(-1)).toThrow(RangeError);
  });

  it('comes back to the same frame from its start and its middle', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 100_000 }), { minLength: 2, maxLength: 80 }),
        fc.constantFrom(
          { num: 1, den: 90_000 },
          { num: 1001, den: 60_000 },
          { num: 1, den: 1000 },
          { num: 1, den: 15_360 },
        ),
        (gaps, base) => {
          let at = 0;
          const t = frameTable(
            base,
            gaps.map((g) => (at += g)),
          );
          for (let i = 0; i <= lastFrame(t); i++) {
            expect(frameAtSeconds(t, frameSeconds(t, frameIndex(i)))).toBe(i);
            const p = ptsOf(t, frameIndex(i));
            expect(frameAt(t, p)).toBe(i);
            if ((gaps[i + 1] ?? 2) > 1) expect(frameAtSeconds(t, middleOfFrame(t, frameIndex(i)))).toBe(i);
          }
        },
      ),
      { numRuns: 50 },
    );
  });
});

describe('speed map', () => {
  it('refuses pieces that stand still, run backward or overlap', () => {
    expect(() => checkSpeedMap([{ from: 0, speed: 0 }])).toThrow(/Piece 1/);
    expect(() => checkSpeedMap([{ from: NaN, speed: 1 }])).toThrow(/Piece 1/);
    expect(() =>
      checkSpeedMap([
        { from: 2, speed: 1 },
        { from: 1, speed: 1 },
      ]),
    ).toThrow(/Piece 2/);
  });
});
