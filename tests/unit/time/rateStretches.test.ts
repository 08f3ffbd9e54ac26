import { describe, expect, it } from 'vitest';
import {
  slowedFrames,
  steadyFrames,
  unsteadyFrames,
  type Pace,
} from '../../../scripts/simulator/frameTimes.ts';
import { toCapture } from '../../../src/time/captureClock.ts';
import { frameTable, type FrameTable } from '../../../src/time/frameTable.ts';
import { rampInFrames, rateAt, rateStretches, speedsAtRate } from '../../../src/time/rateStretches.ts';
import { ticksToSeconds } from '../../../src/time/timeBase.ts';

const tableOf = ({ timeBase: [num, den], pts }: ReturnType<typeof steadyFrames>): FrameTable =>
  frameTable({ num, den }, [...pts]);

/** As phones ramp: life, then slowed, with or without steps on the way. */
const ramp = (slow: number): Pace[] => [
  { until: 2.013, slow: 1 },
  { until: 5.002, slow },
  { until: 8, slow: 1 },
];
const gentle: Pace[] = [
  { until: 2, slow: 1 },
  ...[1.5, 2, 3, 4, 6].map((slow, i) => ({ until: 2.1 + i * 0.1, slow })),
  { until: 5, slow: 8 },
  ...[6, 4, 3, 2, 1.5].map((slow, i) => ({ until: 5.1 + i * 0.1, slow })),
];

/** Largest error of the told capture time of any frame against the i-th of `rate` a second. */
function worst(table: FrameTable, speed: Parameters<typeof toCapture>[0], rate: number): number {
  const first = table.pts[0] ?? 0;
  return Math.max(
    ...table.pts.map((p, i) => {
      const at = (t: number): number => toCapture(speed, ticksToSeconds(table.timeBase, t as typeof p));
      return Math.abs(at(p) - at(first) - i / rate);
    }),
  );
}

describe('the rates at which frames come', () => {
  it.each([24, 25, 30, 60, 120, 240])('are one at a steady %i', (rate) => {
    const [only, ...more] = rateStretches(tableOf(steadyFrames(rate, 6)));
    expect(more).toEqual([]);
    expect(only?.rate).toBeCloseTo(rate, 6);
  });

  it('are one where a recorder is uneven and drops frames', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const table = tableOf(unsteadyFrames(seed, 30, 20));
      expect(rampInFrames(table)).toBeNull();
      expect(rateStretches(table)).toHaveLength(1);
    }
  });

  it('are none for a single frame', () => {
    const one = frameTable({ num: 1, den: 30 }, [5]);
    expect(rateStretches(one)).toEqual([]);
    expect(rampInFrames(one)).toBeNull();
    expect(speedsAtRate(one, 120)).toEqual([]);
    expect(rateAt([], 0)).toBeNull();
  });

  it('stay one where frames have whole milliseconds only, as in Matroska', () => {
    const ms = Array.from({ length: 400 }, (_, i) => Math.round((i * 1000) / 120));
    expect(rateStretches(frameTable({ num: 1, den: 1000 }, ms))).toHaveLength(1);
  });
});

describe('slow motion found in the frames', () => {
  it.each([2, 4, 8])('finds a ramp of %i times, every frame at its instant', (slow) => {
    const table = tableOf(slowedFrames(120, 8, ramp(slow)));
    const found = rampInFrames(table);
    expect(found?.times).toBeCloseTo(slow, 2);
    expect(worst(table, found?.speed ?? [], 120)).toBeLessThan(1e-4);
  });

  it('finds a ramp that comes on step by step', () => {
    const table = tableOf(slowedFrames(240, 8, gentle));
    const found = rampInFrames(table);
    expect(found?.times).toBeCloseTo(8, 1);
    // Steps of a tenth of a second are shorter than a rate can be told from exactly.
    expect(worst(table, found?.speed ?? [], 240)).toBeLessThan(1 / 240);
  });

  it.each([4, 8])(
    'knows the speed of a clip stretched %i times throughout, once its capture rate is said',
    (slow) => {
      const table = tableOf(slowedFrames(120, 8, [{ until: 8, slow }]));
      expect(rampInFrames(table)).toBeNull();
      const speed = speedsAtRate(table, 120);
      expect(speed).toHaveLength(1);
      expect(speed[0]?.speed).toBeCloseTo(1 / slow, 6);
      expect(worst(table, speed, 120)).toBeLessThan(1e-4);
    },
  );

  it('takes a clip that plays as fast as it was filmed for life', () => {
    expect(speedsAtRate(tableOf(steadyFrames(240, 4)), 240)).toEqual([{ from: 0, speed: 1 }]);
    expect(speedsAtRate(tableOf(steadyFrames(60, 4)), 59.94)).toEqual([{ from: 0, speed: 1 }]);
  });
});
