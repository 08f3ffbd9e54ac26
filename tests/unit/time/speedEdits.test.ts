import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runTimeAt, type ClipClock } from '../../../src/time/bracket.ts';
import { calibrated } from '../../../src/time/calibration.ts';
import { checkSpeedMap, speedAt, type SpeedMap } from '../../../src/time/captureClock.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import {
  life,
  offsetKeeping,
  speedFrom,
  speedOfStretch,
  wholeClip,
  withoutChange,
} from '../../../src/time/speedEdits.ts';
import { pts } from '../../../src/time/units.ts';

const quarter = { speed: 0.25, plusMinus: 0 };

describe('saying a speed piece by piece', () => {
  it('says all of it, a stretch of it, and takes a change away again', () => {
    expect(wholeClip(0, quarter)).toEqual([{ from: 0, speed: 0.25 }]);
    const slow = speedFrom([], 0, 2, quarter);
    expect(slow).toEqual([
      { from: 0, speed: 1 },
      { from: 2, speed: 0.25 },
    ]);
    const back = speedFrom(slow, 0, 5, life);
    expect(back.map((p) => [p.from, p.speed])).toEqual([
      [0, 1],
      [2, 0.25],
      [5, 1],
    ]);
    expect(withoutChange(back, 6)).toEqual(slow);
    expect(withoutChange(slow, 3)).toEqual([{ from: 0, speed: 1 }]);
    expect(withoutChange(slow, 1)).toBeNull();
    expect(withoutChange([], 1)).toBeNull();
  });

  it('lets two stretches of one speed be one', () => {
    const map = speedFrom(speedFrom([], 0, 2, quarter), 0, 4, quarter);
    expect(map).toHaveLength(2);
  });

  it('keeps the plus or minus with its stretch', () => {
    const map = speedFrom([], 0, 2, { speed: 0.25, plusMinus: 0.01 });
    expect(map[1]).toEqual({ from: 2, speed: 0.25, plusMinus: 0.01 });
    expect(speedOfStretch(map, 0, 3, quarter)[1]).toEqual({ from: 2, speed: 0.25 });
    expect(speedOfStretch([], 0, 3, quarter)).toEqual([{ from: 0, speed: 0.25 }]);
  });

  it('gives a usable map whatever is pressed, and the speed said at its frame', () => {
    const press = fc.record({
      at: fc.double({ min: -5, max: 60, noNaN: true }),
      speed: fc.double({ min: 0.03, max: 2, noNaN: true }),
      takeAway: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(press, { maxLength: 30 }), (presses) => {
        let map: SpeedMap = [];
        for (const { at, speed, takeAway } of presses) {
          if (takeAway) map = withoutChange(map, at) ?? map;
          else {
            map = speedFrom(map, 0.5, at, { speed, plusMinus: 0 });
            expect(speedAt(map, Math.max(at, 0.5))).toBe(speed);
          }
          checkSpeedMap(map);
          expect(map.every((p) => p.from >= 0.5)).toBe(true);
        }
      }),
    );
  });

  it('keeps the run time of the anchor', () => {
    const clock: ClipClock = {
      table: frameTable({ num: 1, den: 30 }, [0, 30, 60, 90]),
      speed: [],
      offset: 4,
      rate: 1,
    };
    const offset = offsetKeeping(clock, wholeClip(0, quarter), pts(60));
    const changed = { ...clock, speed: wholeClip(0, quarter), offset };
    expect(runTimeAt(changed, pts(60))).toBeCloseTo(6, 12);
    expect(offsetKeeping(clock, wholeClip(0, quarter), pts(0))).toBe(4);
  });
});

describe('a speed from a clock in the picture', () => {
  const table = frameTable(
    { num: 1, den: 30 },
    Array.from({ length: 400 }, (_, i) => i),
  );

  it('is the middle of what fits, plus or minus the rest', () => {
    // 240 frames of file, 8 s, are 2 s of life; each moment lies in the frame before it.
    const found = calibrated(table, pts(60), pts(300), 2, 0);
    expect(found?.speed).toBeCloseTo(0.25, 4);
    expect((found?.speed ?? 0) - (found?.plusMinus ?? 0)).toBeCloseTo(2 / (8 + 1 / 30), 9);
    expect((found?.speed ?? 0) + (found?.plusMinus ?? 0)).toBeCloseTo(2 / (8 - 1 / 30), 9);
  });

  it('covers the real speed wherever between the frames the moments were', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const slow = fc.double({ min: 0.05, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        slow,
        share,
        share,
        share,
        fc.integer({ min: 2, max: 300 }),
        (speed, a, b, error, frames) => {
          const media = frames / 30 + (a - b) / 30;
          const seconds = speed * media;
          const plusMinus = 0.02 * seconds;
          const read = seconds + (2 * error - 1) * plusMinus;
          const found = calibrated(table, pts(50), pts(50 + frames), read, plusMinus);
          if (!found) return;
          expect(Math.abs(found.speed - speed)).toBeLessThanOrEqual(found.plusMinus + 1e-9);
        },
      ),
    );
  });

  it.each([
    ['the same frame twice', 50, 50, 2, 0],
    ['the wrong way round', 90, 50, 2, 0],
    ['one frame apart: there may be no time between', 50, 51, 2, 0],
    ['no seconds', 50, 90, 0, 0],
    ['seconds that may be none', 50, 90, 0.1, 0.1],
    ['seconds that are no number', 50, 90, NaN, 0],
    ['a plus or minus that is no number', 50, 90, 1, NaN],
  ])('is not told for %s', (_, from, to, seconds, plusMinus) => {
    expect(calibrated(table, pts(from), pts(to), seconds, plusMinus)).toBeNull();
  });
});
