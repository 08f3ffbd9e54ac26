import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assumedPace, dash, paceOf } from '../../../src/plan/pace.ts';
import { Pace } from '../../../src/plan/plan.ts';

/** Picks up 4, brakes 4, runs 4 at the most: figures that come out even. */
const pace = { topSpeed: 4, pickUp: 4, braking: 4, turnSeconds: 0.5, offLine: 0.5 };

describe('the least time for a way', () => {
  it('from rest to rest: speeds up to the middle and brakes', () => {
    // 1 m: half a metre up, v = sqrt(2 * 4 * 0.5) = 2 m/s after 0.5 s, and the same down.
    expect(dash(1, pace)).toMatchObject({ seconds: 1, speedThere: 0 });
    // 10 m: 2 m up in 1 s, 2 m down in 1 s, 6 m at 4 m/s.
    expect(dash(10, pace).seconds).toBeCloseTo(3.5, 12);
    expect(dash(10, pace).at(1)).toBeCloseTo(2, 12);
    expect(dash(10, pace).at(2)).toBeCloseTo(6, 12);
    expect(dash(10, pace).at(3)).toBeCloseTo(9.5, 12);
  });

  it('running on, or from a run', () => {
    // 2 m up, 8 m at 4 m/s.
    expect(dash(10, pace, 0, 9).seconds).toBeCloseTo(3, 12);
    expect(dash(10, pace, 4, 4).seconds).toBeCloseTo(2.5, 12);
    // 0.5 m allow no more than 2 m/s.
    expect(dash(0.5, pace, 0, 4).speedThere).toBeCloseTo(2, 12);
    // From 4 m/s within 1 m: braked at 8 instead of 4, 0.5 s.
    expect(dash(1, pace, 4, 0).seconds).toBeCloseTo(0.5, 12);
  });

  it('is nothing for no way, and never runs back or past its end', () => {
    expect(dash(0, pace, 3).seconds).toBe(0);
    const real = fc.double({ min: 0, max: 60, noNaN: true });
    const speed = fc.double({ min: 0, max: 9, noNaN: true });
    fc.assert(
      fc.property(real, speed, speed, (metres, v0, v1) => {
        const run = dash(metres, pace, v0, v1);
        expect(run.seconds).toBeGreaterThanOrEqual(metres / pace.topSpeed - 1e-9);
        let last = 0;
        for (let i = 0; i <= 40; i++) {
          const at = run.at((i / 40) * run.seconds);
          expect(at).toBeGreaterThanOrEqual(last - 1e-9);
          expect(at - last).toBeLessThanOrEqual((run.seconds / 40) * pace.topSpeed + 1e-9);
          last = at;
        }
        expect(last).toBe(run.metres);
      }),
    );
  });
});

describe('a pace', () => {
  it('is as assumed where it is not stated, within its own bounds', () => {
    expect(paceOf(undefined)).toMatchObject({ topSpeed: assumedPace.topSpeed.usual, turnSeconds: 0.6 });
    expect(paceOf({ topSpeed: 6, pickUp: 3, turnSeconds: 0.2 })).toMatchObject({ topSpeed: 6, braking: 4.5 });
    for (const a of Object.values(assumedPace)) {
      expect([a.least < a.usual, a.usual < a.most]).toEqual([true, true]);
    }
  });

  it('of nought, of nothing and of no number is refused', () => {
    const good = { topSpeed: 5, pickUp: 3, turnSeconds: 0 };
    expect(Pace.safeParse(good).success).toBe(true);
    for (const bad of [
      { topSpeed: 0 },
      { topSpeed: NaN },
      { pickUp: 0 },
      { pickUp: Infinity },
      { turnSeconds: -1 },
    ]) {
      expect(Pace.safeParse({ ...good, ...bad }).success).toBe(false);
    }
  });
});
