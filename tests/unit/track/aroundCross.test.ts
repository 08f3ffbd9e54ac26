import { describe, expect, it } from 'vitest';
import { footfallsIn, gapLeft } from '../../../src/track/aroundCross.ts';
import { pathsCrossed, type Pair } from '../../../src/track/pairs.ts';
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
    const gap = gapLeft(pair(), { from: 1, to: 5 }, null);
    expect(gap).toMatchObject({ as: 'least' });
    expect(gap?.at).toBeCloseTo(3, 0);
    expect(gap?.metres.value).toBeCloseTo(0.8, 1);
    expect(gap?.metres.plusMinus).toBeGreaterThan(0);
    expect(gap?.metres.plusMinus).toBeLessThan(0.3);
    // Before she came near, it was more.
    expect(gapLeft(pair(), { from: 0.2, to: 1 }, null)?.metres.value).toBeCloseTo(1.6, 1);
  });

  it('is not told from where she is not marked, nor where nothing of the two lies in the span', () => {
    const around = gapLeft(pair([1.2, 4.8]), { from: 1, to: 5 }, null);
    expect(around?.at === undefined || around.at <= 1.2 || around.at >= 4.8).toBe(true);
    expect(gapLeft(pair([1.2, 4.8]), { from: 2, to: 4 }, null)).toBeNull();
    expect(gapLeft(pair(), { from: 20, to: 21 }, null)).toBeNull();
    expect(gapLeft(pair(), { from: NaN, to: NaN }, null)).toBeNull();
  });

  it('is not told where it would be to a way of the dog that nobody marked', () => {
    const guessed = { ...pair(), dog: line('dog', (t) => [5 * t, 0], [1.6, 4.4]) };
    expect(gapLeft(guessed, { from: 2.5, to: 3.5 }, null)).toBeNull();
  });

  it('before the dog is that when the dog came there, behind her the way between the two when she crossed', () => {
    // The handler goes up across the dog's way at x = 15 with 2 m/s, first at 2 s, then at 4 s; the dog is there at 3 s.
    const crossing = (when: number): Pair => ({
      dog: line('dog', (t) => [5 * t, 0]),
      handler: line('handler', (t) => [15, 2 * (t - when)]),
    });
    const gapOf = (when: number) => {
      const p = crossing(when);
      return gapLeft(p, { from: 1, to: 5 }, pathsCrossed(p)[0] ?? null);
    };
    // A second after she crossed she is 2 m from it; a second before she crosses, the dog goes by, and is 5 m on.
    expect(gapOf(2)).toMatchObject({ as: 'before' });
    expect(gapOf(2)?.at).toBeCloseTo(3, 1);
    expect(gapOf(2)?.metres.value).toBeCloseTo(2, 1);
    expect(gapOf(4)).toMatchObject({ as: 'behind' });
    expect(gapOf(4)?.at).toBeCloseTo(4, 1);
    expect(gapOf(4)?.metres.value).toBeCloseTo(5, 1);
    // At the same time: who was first cannot be told, so nor can what was left.
    expect(gapOf(3)).toBeNull();
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
