import { expect, it } from 'vitest';
import { runB } from '../../../scripts/simulator/demoRuns.ts';
import { STEP } from '../../../scripts/simulator/run/record.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';

it('an act may wait until the handler is near a spot', () => {
  const spot = { x: 24, y: 9 };
  const [first] = runB.handling.tries;
  if (!first) throw new Error('the run has a start');
  const { handler, said } = simulateRun({
    ...runB,
    handling: {
      ...runB.handling,
      tries: [{ ...first, leadOut: [{ x: 16, y: 8 }] }],
      acts: [
        { do: 'go', when: { on: 'release', delay: 0 }, to: [spot], speed: 4 },
        { do: 'say', when: { on: 'near', at: spot, within: 1 }, word: 'here' },
      ],
    },
    happenings: { natural: false },
    longest: 12,
  });
  const began = said.find((s) => s.word === 'here')?.begin ?? NaN;
  const far = (t: number): number => {
    const i = Math.round(t / STEP);
    return Math.hypot((handler.x[i] ?? NaN) - spot.x, (handler.y[i] ?? NaN) - spot.y);
  };
  expect(far(began)).toBeLessThanOrEqual(1);
  expect(far(began - STEP)).toBeGreaterThan(1);
});
