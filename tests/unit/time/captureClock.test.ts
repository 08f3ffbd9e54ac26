import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bracketOf, type ClipClock } from '../../../src/time/bracket.ts';
import {
  checkSpeedMap,
  drift,
  pieceAt,
  speedAt,
  toCapture,
  toMedia,
  type SpeedPiece,
} from '../../../src/time/captureClock.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBetween } from '../../../src/time/quantity.ts';
import { captureSeconds, mediaSeconds, pts } from '../../../src/time/units.ts';

/** Speed maps with ramps: pieces from a few frames to many seconds long, from 1/32 of life to 4 times it. */
const ramps = fc
  .array(
    fc.record({
      gap: fc.double({ min: 0.01, max: 40, noNaN: true }),
      speed: fc.double({ min: 1 / 32, max: 4, noNaN: true }),
      doubt: fc.double({ min: 0, max: 0.2, noNaN: true }),
    }),
    { maxLength: 30 },
  )
  .chain((list) => fc.double({ min: -20, max: 20, noNaN: true }).map((first) => ({ list, first })))
  .map(({ list, first }) => {
    let from = first;
    return list.map((p): SpeedPiece => {
      const piece = { from, speed: p.speed, plusMinus: p.speed * p.doubt };
      from += p.gap;
      return piece;
    });
  });
const media = fc.double({ min: -50, max: 2000, noNaN: true }).map(mediaSeconds);

describe('the clock of the camera', () => {
  it('is the file’s clock where nothing is said', () => {
    expect(toCapture([], mediaSeconds(12.5))).toBe(12.5);
    expect(toMedia([], captureSeconds(12.5))).toBe(12.5);
    expect(speedAt([], 3)).toBe(1);
    expect(pieceAt([], 3)).toBeUndefined();
  });

  it('counts a ramp piece by piece: 2 s of life, 8 s at a quarter, life again', () => {
    const map = [
      { from: 0, speed: 1 },
      { from: 2, speed: 0.25 },
      { from: 10, speed: 1 },
    ];
    expect(toCapture(map, mediaSeconds(2))).toBe(2);
    expect(toCapture(map, mediaSeconds(6))).toBe(3);
    expect(toCapture(map, mediaSeconds(12))).toBe(6);
    expect(toMedia(map, captureSeconds(3))).toBe(6);
    expect(toMedia(map, captureSeconds(6))).toBe(12);
    expect([1, 2, 9.9, 10].map((m) => speedAt(map, m))).toEqual([1, 0.25, 0.25, 1]);
  });

  it('holds the first speed before the first piece', () => {
    const map = [{ from: 5, speed: 0.5 }];
    expect(toCapture(map, mediaSeconds(-2))).toBe(-1);
    expect(toMedia(map, captureSeconds(-1))).toBe(-2);
  });

  it('goes there and back again, over ramps of every kind', () => {
    fc.assert(
      fc.property(ramps, media, (map, at) => {
        expect(toMedia(map, toCapture(map, at))).toBeCloseTo(at, 6);
      }),
    );
  });

  it('never runs backward, and is 0 where the file is', () => {
    fc.assert(
      fc.property(ramps, media, media, (map, a, b) => {
        const [early, late] = a < b ? [a, b] : [b, a];
        expect(toCapture(map, late)).toBeGreaterThanOrEqual(toCapture(map, early));
        expect(Math.abs(toCapture(map, mediaSeconds(0)))).toBe(0);
      }),
    );
  });

  it('covers with its drift every clock whose speeds lie within their plus or minus', () => {
    const off = fc.infiniteStream(fc.double({ min: -1, max: 1, noNaN: true }));
    fc.assert(
      fc.property(ramps, media, media, off, (map, a, b, errors) => {
        const real = map.map((p): SpeedPiece => {
          const share: number = errors.next().value;
          return { from: p.from, speed: p.speed + share * (p.plusMinus ?? 0) };
        });
        const told = toCapture(map, b) - toCapture(map, a);
        const was = toCapture(real, b) - toCapture(real, a);
        expect(Math.abs(told - was)).toBeLessThanOrEqual(Math.abs(drift(map, b) - drift(map, a)) + 1e-6);
      }),
    );
  });

  it.each([
    ['speed 0', [{ from: 0, speed: 0 }]],
    ['a speed below 0', [{ from: 0, speed: -1 }]],
    ['NaN', [{ from: 0, speed: NaN }]],
    ['a start that is no number', [{ from: Infinity, speed: 1 }]],
    ['a plus or minus that reaches 0', [{ from: 0, speed: 0.25, plusMinus: 0.25 }]],
    ['a plus or minus below 0', [{ from: 0, speed: 0.25, plusMinus: -0.1 }]],
    ['a plus or minus that is no number', [{ from: 0, speed: 0.25, plusMinus: NaN }]],
    [
      'the same start twice',
      [
        { from: 1, speed: 1 },
        { from: 1, speed: 2 },
      ],
    ],
  ])('refuses %s', (_, map) => {
    expect(() => checkSpeedMap(map)).toThrow(RangeError);
  });
});

describe('times between two marks of a slowed clip', () => {
  const clock = (plusMinus: number, from = 0): ClipClock => ({
    table: frameTable(
      { num: 1, den: 30 },
      Array.from({ length: 600 }, (_, i) => i),
    ),
    speed: [{ from, speed: 0.25, plusMinus }],
    offset: 0,
    rate: 1,
  });

  it('have only the frames’ plus or minus where the speed is exact', () => {
    const c = clock(0);
    const time = timeBetween(bracketOf(c, pts(100), 'first'), bracketOf(c, pts(220), 'first'));
    expect(time.value).toBeCloseTo(1, 9);
    expect(time.plusMinus).toBeCloseTo(1 / 120, 9);
    expect(bracketOf(c, pts(100), 'first').drift).toBeUndefined();
  });

  it('carry what the speed may be off over the way between them, wherever they lie', () => {
    const c = clock(0.01);
    for (const first of [0, 100, 400]) {
      const time = timeBetween(bracketOf(c, pts(first), 'first'), bracketOf(c, pts(first + 120), 'first'));
      // 4 s of file and one frame, each 0.01 s off at most.
      expect(time.plusMinus).toBeCloseTo(1 / 120 + (4 + 1 / 30) * 0.01, 9);
    }
  });

  it('allow for all of both clips where marks lie on two clips, since where they meet is not known', () => {
    const a = clock(0.01);
    const b = clock(0.01);
    const time = timeBetween(bracketOf(a, pts(100), 'first'), bracketOf(b, pts(100), 'first'));
    expect(time.plusMinus).toBeGreaterThanOrEqual(1 / 120 + 2 * 20 * 0.01);
  });
});
