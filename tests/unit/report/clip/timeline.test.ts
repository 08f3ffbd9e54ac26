import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outRate } from '../../../../src/report/clip/outRate.ts';
import { soundtrackOf } from '../../../../src/report/clip/soundtrack.ts';
import { secondsOf, timelineOf, type Shown } from '../../../../src/report/clip/timeline.ts';
import { frameTable } from '../../../../src/time/frameTable.ts';
import { timeBase } from '../../../../src/time/timeBase.ts';

const even = (rate: number, frames: number, ticks = 1) =>
  frameTable(
    timeBase(1, rate * ticks),
    Array.from({ length: frames }, (_, i) => i * ticks),
  );
const plain = (from: number, to: number): Shown => ({ parts: [{ from, to }], slow: [], freezes: [] });
/** What each picture shows. */
const pictures = (made: ReturnType<typeof timelineOf>): number[] =>
  made.shots.flatMap((s) => Array.from({ length: s.ticks }, () => s.frame));

describe('the pictures of a clip', () => {
  test('are each frame once where the rate is even and a phone can follow', () => {
    const made = timelineOf(even(50, 400), plain(10, 109));
    expect(made.rate).toEqual({ num: 50, den: 1 });
    expect(pictures(made)).toEqual(Array.from({ length: 100 }, (_, i) => i + 10));
  });

  test('are every fourth frame of 240 a second, with the first and the last; all of them at a quarter', () => {
    const table = even(240, 400);
    const fast = timelineOf(table, plain(8, 127));
    expect(fast.rate).toEqual({ num: 240, den: 4 });
    expect(pictures(fast).slice(0, 4)).toEqual([8, 12, 16, 20]);
    expect(pictures(fast).at(-1)).toBe(127);
    const slow = timelineOf(table, { ...plain(8, 127), slow: [{ from: 8, to: 127, speed: 1 / 4 }] });
    expect(pictures(slow)).toEqual(Array.from({ length: 120 }, (_, i) => i + 8));
  });

  test('repeat frames in slow motion, and hold one for its seconds beyond its own', () => {
    const table = even(25, 100);
    const made = timelineOf(table, {
      parts: [{ from: 0, to: 49 }],
      slow: [{ from: 10, to: 19, speed: 1 / 8 }],
      freezes: [{ frame: 12, seconds: 2 }],
    });
    const times = (frame: number): number => pictures(made).filter((f) => f === frame).length;
    expect([times(9), times(10), times(12), times(19), times(20)]).toEqual([1, 8, 8 + 50, 8, 1]);
    expect(made.shots.find((s) => s.frame === 12)).toMatchObject({ held: 50, speed: 1 / 8 });
    expect(secondsOf(made)).toBeCloseTo((40 + 80 + 50) / 25, 9);
  });

  test('of a clock that jitters leave no frame out and show none twice', () => {
    // A phone's 30 a second, each frame up to 4 ms off.
    const jitter = [0, 3, -2, 4, -4, 1, 2, -3];
    const ticks = Array.from({ length: 200 }, (_, i) => Math.round((i * 1000) / 30) + (jitter[i % 8] ?? 0));
    const made = timelineOf(frameTable(timeBase(1, 1000), ticks), plain(0, 199));
    expect(made.rate).toEqual({ num: 30, den: 1 });
    expect(pictures(made)).toEqual(Array.from({ length: 200 }, (_, i) => i));
  });

  test('are refused for frames that are not there, or out of order', () => {
    const table = even(30, 60);
    for (const parts of [
      [],
      [{ from: 0, to: 60 }],
      [{ from: 5, to: 4 }],
      [
        { from: 9, to: 20 },
        { from: 20, to: 30 },
      ],
    ]) {
      expect(() => timelineOf(table, { ...plain(0, 1), parts })).toThrow(RangeError);
    }
  });

  test('hold, whatever the clip: both ends, every held frame, no frame before its time, none backwards', () => {
    const gaps = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 2, maxLength: 120 });
    fc.assert(
      fc.property(
        gaps,
        fc.nat(),
        fc.nat(),
        fc.nat(),
        fc.constantFrom(1, 1 / 2, 1 / 4, 1 / 8),
        (gap, a, b, c, speed) => {
          let at = 0;
          const table = frameTable(timeBase(1, 600), [0, ...gap.map((g) => (at += g))]);
          const count = gap.length + 1;
          const [from = 0, held = 0, to = 0] = [a % count, b % count, c % count].sort((x, y) => x - y);
          const made = timelineOf(table, {
            parts: [{ from, to }],
            slow: speed === 1 ? [] : [{ from: held, to, speed }],
            freezes: [{ frame: held, seconds: 1 }],
          });
          const shown = pictures(made);
          expect(shown).toHaveLength(made.ticks);
          expect([shown[0], shown.at(-1)]).toEqual([from, to]);
          const perSecond = made.rate.num / made.rate.den;
          expect(shown.filter((f) => f === held).length).toBeGreaterThanOrEqual(Math.round(perSecond));
          expect(shown).toEqual(shown.toSorted((x, y) => x - y));
          expect(perSecond).toBeLessThanOrEqual(60.0001);
        },
      ),
      { numRuns: 300, seed: 7 },
    );
  });
});

test('the rate is that of the frames, named as cameras write it', () => {
  const ntsc = frameTable(
    timeBase(1001, 30_000),
    Array.from({ length: 300 }, (_, i) => i),
  );
  expect(outRate(ntsc, 0, 299)).toEqual({ num: 30_000, den: 1001 });
  expect(outRate(ntsc, 7, 8)).toEqual({ num: 30_000, den: 1001 });
  expect(outRate(ntsc, 7, 7)).toEqual({ num: 30, den: 1 });
  // A hole of half a second: no even rate.
  const hole = frameTable(timeBase(1, 30), [0, 1, 2, 3, 18, 19, 20]);
  expect(outRate(hole, 0, 6)).toEqual({ num: 60, den: 1 });
});

test('sound is heard where the run goes at real speed, and silent where it is slowed or held', () => {
  const made = timelineOf(even(25, 200), {
    parts: [
      { from: 0, to: 49 },
      { from: 100, to: 124 },
    ],
    slow: [{ from: 20, to: 29, speed: 1 / 2 }],
    freezes: [{ frame: 40, seconds: 1 }],
  });
  expect(soundtrackOf(made)).toEqual([
    { frame: 0, seconds: 0.8 },
    { silence: 0.8 },
    { frame: 30, seconds: 11 / 25 },
    { silence: 1 },
    { frame: 41, seconds: 9 / 25 },
    { frame: 100, seconds: 1 },
  ]);
});
