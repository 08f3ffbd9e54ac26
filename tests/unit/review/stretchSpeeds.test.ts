import { describe, expect, it } from 'vitest';
import type { LikelyLine } from '../../../src/line/line.ts';
import type { Split } from '../../../src/review/analysis.ts';
import { likelyLengths, stretchSpeeds } from '../../../src/review/stretchSpeeds.ts';
import type { Quantity } from '../../../src/time/quantity.ts';

const pose = { x: 0, y: 0, headingDegrees: 0 };
/** Two jumps: `between` metres on the ground, then 3 in the air and 4 aside: a flight of 5 m. */
const line = (between: number): LikelyLine => ({
  steps: [1, 2].map((number) => ({
    number,
    obstacleId: `o${number}`,
    kind: 'barJump',
    entry: pose,
    exit: pose,
    through: [
      { x: 0, y: 0 },
      { x: 3, y: 4 },
    ],
    offset: 0,
    sliceDegrees: 0,
    inAt: 0,
    outAt: 1,
  })),
  stretches: [
    {
      ...{
        from: null,
        to: 1,
        points: [],
        length: 7,
        seconds: 1,
        turnDegrees: 0,
        radius: null,
        blocked: false,
      },
    },
    {
      ...{
        from: 1,
        to: 2,
        points: [],
        length: between,
        seconds: 1,
        turnDegrees: 0,
        radius: null,
        blocked: false,
      },
    },
    {
      ...{
        from: 2,
        to: null,
        points: [],
        length: 7,
        seconds: 1,
        turnDegrees: 0,
        radius: null,
        blocked: false,
      },
    },
  ],
  length: 0,
  seconds: 0,
});
const q = (value: number, plusMinus: number, unit: Quantity['unit']): Quantity => ({
  value,
  plusMinus,
  unit,
});
const split = (from: number | null, to: number, time: Quantity): Split => ({ try: 1, from, to, time });

describe('the speed of a stretch', () => {
  const lengths = likelyLengths({ tight: line(4), usual: line(5), wide: line(7) });

  it('over the likely line goes from out to out, with the range of a dog that turns tightly or widely', () => {
    expect([...lengths]).toEqual([[2, q(10, 2, 'm')]]);
    const [row] = stretchSpeeds([split(1, 2, q(2, 0, 's'))], new Map(), lengths);
    expect(row).toEqual({ from: 1, to: 2, speed: q(5, 1, 'm/s'), over: 'likely' });
  });

  it('holds every speed that length and time allow', () => {
    const [row] = stretchSpeeds([split(1, 2, q(2, 0.5, 's'))], new Map(), lengths);
    expect(row?.speed.plusMinus).toBeCloseTo(12 / 1.5 - 5, 12);
  });

  it('goes by the real line where that was measured, and says so', () => {
    const real = (gap: boolean) => new Map([[2, { speed: q(4.4, 0.1, 'm/s'), gap }]]);
    expect(stretchSpeeds([split(1, 2, q(2, 0, 's'))], real(false), lengths)).toMatchObject([
      { speed: { value: 4.4 }, over: 'real' },
    ]);
    // Nor is it passed off as measured where part of it was not.
    expect(stretchSpeeds([split(1, 2, q(2, 0, 's'))], real(true), lengths)).toMatchObject([
      { speed: { value: 4.4 }, over: 'realPart' },
    ]);
  });

  it('is not told from the start, over a number left out, without a line, or without time', () => {
    const none = [split(null, 1, q(1, 0, 's')), split(0, 2, q(2, 0, 's')), split(1, 2, q(0.02, 0.04, 's'))];
    expect(stretchSpeeds([...none, split(2, 3, q(1, 0, 's'))], new Map(), lengths)).toEqual([]);
    expect(stretchSpeeds([split(1, 2, q(NaN, 0, 's'))], new Map(), lengths)).toEqual([]);
  });
});
