import { describe, expect, it } from 'vitest';
import type { Course } from '../../../src/course/course.ts';
import { lengthOf } from '../../../src/course/pose.ts';
import { wantedParts } from '../../../src/track/wantedParts.ts';
import { waysOf } from '../../../src/track/figures.ts';
import { flightsOf, unsureOf } from '../../../src/track/flights.ts';
import { nearestSample, sampleAt, samplesOf } from '../../../src/track/samples.ts';
import { jumpFigures, stretchFigures } from '../../../src/track/stretches.ts';
import { lineThrough, readingsOf } from './lines.ts';
import { bracket, moment, taken } from './taken.ts';

describe('flights from marks', () => {
  it('are the jumps with both ends, in the order of time', () => {
    const flights = flightsOf([
      taken(2, 3, 3.4),
      taken(1, 1, 1.4),
      taken(3, 5, 6, { kind: 'tunnel' }),
      taken(4, 7, 7.4, { single: true }),
      taken(5, 9, 8.6),
      taken(6, 10, 14),
      taken(7, 20, 20.4, { out: null }),
    ]);
    expect(flights.map((f) => [f.from, f.to])).toEqual([
      [1, 1.4],
      [3, 3.4],
    ]);
    // Evenly within two hundredths: their width over the root of twelve.
    expect(flights[0]?.unsure).toBeCloseTo(0.02 / Math.sqrt(12), 9);
    expect(unsureOf(bracket(0, 1))).toBeCloseTo(0.288675, 6);
  });
});

/** 5 m/s along x, then half a circle of 2 m to the left, then back. */
const turn = (t: number) => {
  if (t <= 4) return { x: 5 * t, y: 0 };
  const angle = Math.min(Math.PI, (5 * (t - 4)) / 2);
  const past = Math.max(0, 5 * (t - 4) - 2 * Math.PI);
  return { x: 20 + 2 * Math.sin(angle) - past, y: 2 - 2 * Math.cos(angle) };
};
const line = lineThrough({ readings: readingsOf(turn, 0, 8, 0.15, 0.01) });
const ways = waysOf(line, 1, 200);

describe('stretches', () => {
  const wanted = [
    { x: 0, y: -0.5 },
    { x: 20, y: -0.5 },
  ];
  const rows = stretchFigures(
    ways,
    [taken(1, 0.6, 1), taken(2, 2.6, 3), taken(3, 6, 6.4), taken(4, 9, 9.4)],
    new Map([[2, wanted]]),
  );

  it('run out to out, as far as the line reaches', () => {
    expect(rows.map((r) => [r.from, r.to])).toEqual([
      [1, 2],
      [2, 3],
    ]);
  });

  it('length, speed and their bands hold the true ones', () => {
    for (const [i, metres] of [10, 17].entries()) {
      const { length, speed, time } = rows[i] ?? {};
      expect(Math.abs((length?.value ?? 0) - metres)).toBeLessThan((length?.plusMinus ?? 0) + 0.02 * metres);
      expect(length?.value).toBeGreaterThan(0.97 * metres);
      expect(time?.value).toBeCloseTo(metres / 5, 6);
      expect(Math.abs((speed?.value ?? 0) - 5)).toBeLessThan(Math.max(0.15, speed?.plusMinus ?? 0));
      expect(speed?.plusMinus).toBeGreaterThan(0);
    }
  });

  it('the sharpest turn is the half circle, to the left; a straight is straight', () => {
    const bend = rows[1]?.bend;
    expect(bend?.value).toBeGreaterThan(0.4);
    expect(bend?.value).toBeLessThan(0.65);
    expect(bend?.at).toBeGreaterThan(3.9);
    expect(bend?.at).toBeLessThan(5.4);
    expect(Math.abs(rows[0]?.bend?.value ?? 1)).toBeLessThan(rows[0]?.bend?.plusMinus ?? 0);
  });

  it('furthest from the wanted line', () => {
    expect(rows[0]?.off?.value).toBeCloseTo(0.5, 1);
    expect(rows[0]?.off?.plusMinus).toBeLessThan(0.1);
    expect(stretchFigures(ways, [taken(1, 0.6, 1), taken(2, 2.6, 3)], new Map())[0]?.off).toBeNull();
    // From 1 to 3 no one part of it leads.
    expect(
      stretchFigures(ways, [taken(1, 0.6, 1), taken(3, 2.6, 3)], new Map([[3, wanted]]))[0]?.off,
    ).toBeNull();
  });

  it('say nothing of numbers without an out, or out of order', () => {
    expect(stretchFigures(ways, [taken(1, 0.6, 1, { out: null }), taken(2, 2, 3)], new Map())).toEqual([]);
    expect(stretchFigures(ways, [taken(1, 4, 5), taken(2, 2, 3)], new Map())).toEqual([]);
  });
});

describe('the part of a wanted line that leads to a number', () => {
  const jump = (id: string, x: number, y: number) => ({
    id,
    kind: 'barJump' as const,
    nickname: '',
    stand: { x, y, headingDegrees: 0 },
  });
  const course: Course = {
    name: '',
    obstacles: [jump('a', 2, 0), jump('b', 8, 0), jump('c', 8, 6), jump('d', 2, 6), jump('e', 30, 30)],
    // Back over the first ones, which the line does not go: far numbers lie between.
    steps: ['a', 'b', 'c', 'd', 'e', 'b', 'a'].map((obstacleId, i) => ({
      number: i + 1,
      obstacleId,
      direction: 'forward' as const,
    })),
  };
  const wanted = [
    { x: 0, y: 0 },
    { x: 10, y: 0 },
    { x: 10, y: 6 },
    { x: 6, y: 6 },
  ];
  it('runs between the two, and where the line does not reach there is none', () => {
    const parts = wantedParts(wanted, course);
    expect([...parts.keys()]).toEqual([2, 3]);
    expect(parts.get(2)?.[0]?.x).toBeCloseTo(2, 1);
    // To 3 m behind the middle of 2, round the corner.
    expect(parts.get(2)?.at(-1)?.y).toBeCloseTo(1, 1);
    expect(lengthOf(parts.get(3) ?? [])).toBeCloseTo(2 + 6 + 2 + 2, 0);
    expect(wantedParts([], course).size).toBe(0);
    expect(wantedParts(wanted.slice(0, 1), course).size).toBe(0);
  });
});

describe('take-off and landing', () => {
  it('are told from the plane of the bar, wider where the frame is', () => {
    const gates = new Map([[1, { pose: { x: 4, y: 0, headingDegrees: 0 }, half: 0.65 }]]);
    const [row] = jumpFigures(line, [taken(1, 0.5, 1.1), taken(2, 2, 2.4)], gates);
    expect(row?.place).toBe(1);
    expect(row?.takeOff?.value).toBeCloseTo(1.5, 1);
    expect(row?.landing?.value).toBeCloseTo(1.5, 1);
    const slow = [taken(1, 0.5, 1.1, { in: moment(0.5, 0.2) })];
    const loose = jumpFigures(line, slow, gates)[0]?.takeOff;
    // 5 m/s for a moment that is off by 0.2 s / √12, one deviation.
    expect(loose?.plusMinus).toBeGreaterThan(1.95 * 5 * (0.2 / Math.sqrt(12)));
    expect(loose?.plusMinus).toBeGreaterThan((row?.takeOff?.plusMinus ?? 0) * 2);
  });
});

describe('a line as it is drawn', () => {
  it('has its band to both sides, straight across', () => {
    const samples = samplesOf(line, 0.05);
    expect(samples[0]?.at).toBe(line.from);
    expect(samples.at(-1)?.at).toBe(line.to);
    const here = sampleAt(line, 2);
    expect(here?.left.x).toBeCloseTo(here?.x ?? 0, 2);
    expect((here?.left.y ?? 0) - (here?.right.y ?? 0)).toBeGreaterThan(0.005);
    expect(here?.speed).toBeCloseTo(5, 1);
    expect(sampleAt(line, -1)).toBeNull();
  });

  it('a hand that drags stays on its pass of a line that crosses itself', () => {
    const eight = lineThrough({
      readings: readingsOf(
        (t) => ({ x: 5 * Math.sin(t), y: 5 * Math.sin(2 * t) }),
        0,
        2 * Math.PI,
        0.15,
        0.01,
      ),
    });
    const samples = samplesOf(eight);
    const far = (s: { x: number; y: number }) => s.x ** 2 + (s.y + 0.02) ** 2;
    expect(nearestSample(samples, far, Math.PI)?.at).toBeCloseTo(Math.PI, 1);
    expect(nearestSample(samples, far, 0)?.at).toBeLessThan(0.2);
    expect(nearestSample([], far, null)).toBeNull();
  });
});
