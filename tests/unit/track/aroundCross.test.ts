import { describe, expect, it } from 'vitest';
import { footfallsIn, leastGap } from '../../../src/track/aroundCross.ts';
import type { Pair } from '../../../src/track/pairs.ts';
import type { GroundReading, LineReading } from '../../../src/track/readings.ts';
import { realLine, type RealLine } from '../../../src/track/realLine.ts';

const reading = (at: number, x: number, y: number): GroundReading => ({
  contact: 'ground',
  at,
  x,
  y,
  spread: [1e-4, 0, 1e-4],
});

/** Marked every fifth of a second from 0 to 6 s, but not within `without`. */
function line(
  who: RealLine['who'],
  at: (t: number) => readonly [number, number],
  without?: [number, number],
) {
  const readings = Array.from({ length: 31 }, (_, i): LineReading => reading(i / 5, ...at(i / 5))).filter(
    (r) => !without || r.at <= without[0] || r.at >= without[1],
  );
  const made = realLine({ who, readings, step: 0.05 });
  if (!made) throw new Error('no line');
  return made;
}

/** The dog runs along x; the handler beside her, 2 m to her left, and comes to 0.8 m at 3 s. */
const pair = (handlerWithout?: [number, number]): Pair => ({
  dog: line('dog', (t) => [5 * t, 0]),
  handler: line('handler', (t) => [5 * t, 0.8 + 0.4 * Math.abs(t - 3)], handlerWithout),
});

describe('the gap that a handler leaves', () => {
  it('is the least of the span, with when it was and its plus or minus', () => {
    const gap = leastGap(pair(), 1, 5);
    expect(gap?.at).toBeCloseTo(3, 0);
    expect(gap?.metres.value).toBeCloseTo(0.8, 1);
    expect(gap?.metres.plusMinus).toBeGreaterThan(0);
    expect(gap?.metres.plusMinus).toBeLessThan(0.3);
    // Before she came near, it was more.
    expect(leastGap(pair(), 0.2, 1)?.metres.value).toBeCloseTo(1.6, 1);
  });

  it('is not told from where she is not marked, nor where nothing of the two lies in the span', () => {
    const around = leastGap(pair([1.2, 4.8]), 1, 5);
    expect(around?.at === undefined || around.at <= 1.2 || around.at >= 4.8).toBe(true);
    expect(leastGap(pair([1.2, 4.8]), 2, 4)).toBeNull();
    expect(leastGap(pair(), 20, 21)).toBeNull();
    expect(leastGap(pair(), NaN, NaN)).toBeNull();
  });
});

describe('footfalls', () => {
  it('are those of the span in their order, each with the way she was going', () => {
    const feet = [
      { foot: 'right' as const, reading: reading(2.6, 13, 1) },
      { foot: 'left' as const, reading: reading(2.2, 11, 1.2) },
      { foot: 'left' as const, reading: reading(5.5, 27, 1.8) },
    ];
    const steps = footfallsIn(pair(), feet, 2, 4);
    expect(steps.map((s) => [s.foot, s.at])).toEqual([
      ['left', 2.2],
      ['right', 2.6],
    ]);
    // Along x, and a little towards the dog.
    for (const { heading } of steps) expect(heading).toBeCloseTo((Math.atan2(-0.4, 5) * 180) / Math.PI, -1);
  });

  it('face nowhere where she stands, or is not marked about then', () => {
    const standing: Pair = { ...pair(), handler: line('handler', () => [3, 2]) };
    const feet = [{ foot: 'left' as const, reading: reading(3, 3, 2) }];
    expect(footfallsIn(standing, feet, 0, 6)[0]?.heading).toBeNull();
    expect(footfallsIn(pair([1.2, 4.8]), feet, 0, 6)[0]?.heading).toBeNull();
  });
});
