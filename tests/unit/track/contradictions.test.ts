import { describe, expect, it } from 'vitest';
import { realLine } from '../../../src/track/realLine.ts';
import type { LineReading } from '../../../src/track/readings.ts';
import { whereAt } from '../../../src/track/whereAt.ts';
import { randomStream } from '../../../scripts/simulator/base/random.ts';
import { lineThrough, reading, readingsOf } from './lines.ts';

const circle = (t: number) => ({ x: 4 * Math.sin(t * 1.25), y: 4 - 4 * Math.cos(t * 1.25) });
const turning = readingsOf(circle, 0, 6);

/** The readings with one of them somewhere else. */
const shifted = (list: readonly LineReading[], i: number, x: number, y: number): LineReading[] =>
  list.map((r, k) => (k === i ? { ...r, x: r.x + x, y: r.y + y } : r));
const shiftOf = (line: ReturnType<typeof lineThrough>, t: number): number => {
  const [here, truth] = [whereAt(line, t), circle(t)];
  return Math.hypot((here?.x ?? NaN) - truth.x, (here?.y ?? NaN) - truth.y);
};

describe('readings that contradict the others', () => {
  it.each([3, 7, 11])('one that lies two metres aside is named, and the line is as without it: %d', (i) => {
    const readings = shifted(turning, i, 1.2, -1.6);
    const line = lineThrough({ readings });
    expect(line.against).toEqual([{ place: i, why: 'others' }]);
    const t = turning[i]?.at ?? NaN;
    expect(shiftOf(line, t)).toBeLessThan(0.3);
    expect(shiftOf(lineThrough({ readings, contradictions: 'keep' }), t)).toBeGreaterThan(1);
    expect(lineThrough({ readings, contradictions: 'keep' }).against).toEqual([]);
  });

  it('two next to each other are both named, wherever they stand in the list', () => {
    const readings = shifted(shifted(turning, 5, 2, 2), 6, -2, 1).toReversed();
    expect(lineThrough({ readings }).against.map((a) => a.place)).toEqual([9, 10]);
  });

  it('a wild turn, and right clicks with their noise, are none', () => {
    for (let seed = 0; seed < 40; seed++) {
      const random = randomStream(seed);
      const turns = random.between(0.5, 3);
      const noisy = readingsOf(
        (t) => ({ x: 3 * Math.sin(t * turns), y: 2 * Math.cos(1.3 * t * turns) }),
        0,
        6,
        0.4,
        0.05,
      ).map((r) => ({ ...r, x: r.x + 0.05 * random.bell(), y: r.y + 0.05 * random.bell() }));
      expect(lineThrough({ readings: noisy }).against).toEqual([]);
    }
  });

  it('of five none can be named, and where a third contradicts nobody knows which part is right', () => {
    const five = readingsOf(circle, 0, 1.6);
    expect(lineThrough({ readings: shifted(five, 2, 2, 2) }).against).toEqual([]);
    const torn = turning.map((r, i) => (i % 3 === 1 ? { ...r, x: r.x + 3 * Math.sin(i), y: r.y + 3 } : r));
    expect(lineThrough({ readings: torn }).against).toEqual([]);
  });

  it('a touch of the ground in the middle of a flight is none; at its ends a paw may still touch', () => {
    const flights = [{ from: 1.5, to: 2.3, unsure: 0.01 }];
    const touches = [0, 0.4, 0.8, 1.2, 1.51, 1.9, 2.29, 2.7, 3.1].map((t) => reading(t, 6 * t, 0));
    const line = lineThrough({ readings: touches, flights });
    expect(line.against).toEqual([{ place: 5, why: 'inFlight' }]);
    expect(lineThrough({ readings: touches, flights, contradictions: 'keep' }).against).toEqual([]);
    const air: LineReading = { contact: 'air', at: 1.9, x: 11.4, y: 3, along: Math.PI / 2, aside: 0.03 };
    const inAir = lineThrough({ readings: [...touches.filter((r) => r.at !== 1.9), air], flights });
    expect(inAir.against).toEqual([]);
  });

  it('flights over all there is leave the marks that there are', () => {
    const line = realLine({
      who: 'dog',
      readings: [reading(1, 0, 0), reading(2, 6, 0)],
      flights: [{ from: 0, to: 9 }],
    });
    expect(line).toMatchObject({ from: 1, to: 2, against: [] });
  });

  it('numbers that are none and contradictions are told apart', () => {
    const readings = [...shifted(turning, 8, 3, 0), reading(1, NaN, 0)];
    expect(lineThrough({ readings })).toMatchObject({
      against: [{ place: 8, why: 'others' }],
      leftOut: [16],
    });
  });
});
