import { describe, expect, it } from 'vitest';
import { PlanSheet } from '../../../src/plan/plan.ts';
import { timePlan } from '../../../src/plan/spare.ts';
import { walkThrough } from '../../../src/plan/walkThrough.ts';
import { courseAt, straightLine } from './scene.ts';

const course = courseAt([10, 10], [16, 10]);
const at = (x: number, y = 10) => ({ x, y });
const line = straightLine(at(5), [
  { entry: at(8.5), exit: at(11.5) },
  { entry: at(14.5), exit: at(17.5) },
]);
const sheet = PlanSheet.parse({
  pace: { topSpeed: 6, pickUp: 4.5, turnSeconds: 0.5 },
  leadOut: at(13, 8.7),
  supports: [{ id: 's', place: 1, until: 'in', at: at(13, 8.7) }],
  crosses: [{ id: 'c', place: 2, kind: 'front', at: at(13, 10.7) }],
});
const walk = walkThrough(line, timePlan(course, sheet, line, { committedAt: 3.5, takeOff: 1.5 }, []));

describe('a walk-through', () => {
  it('has the dog wait, run at 5 m/s and take each number in its time', () => {
    expect(walk.dog(-1)).toEqual({ x: 5, y: 10, headingDegrees: 0, on: null });
    expect(walk.dog(0.4)?.x).toBeCloseTo(7, 9);
    expect(walk.dog(1)).toMatchObject({ on: 1 });
    expect(walk.dog(1)?.x).toBeCloseTo(10, 9);
    expect(walk.dog(1.5)).toMatchObject({ on: null });
    expect(walk.dog(2)).toMatchObject({ on: 2 });
    expect(walk.dog(3)?.x).toBeCloseTo(20, 9);
    expect(walk.dog(99)?.x).toBeCloseTo(22.5, 9);
    expect(walk.seconds).toBeCloseTo(3.5, 9);
  });

  it('has the handler wait, support until she is held no longer, run, and turn', () => {
    expect(walk.handler(-0.5)).toMatchObject({ x: 13, y: 8.7, doing: 'waits', place: null });
    expect(walk.handler(0.5)).toMatchObject({ y: 8.7, doing: 'supports', place: 1 });
    // 2/3 s on from take-off she has run half of 2 m: 4.5 / 2 * (2 / 3)^2 = 1 m.
    const half = walk.handler(0.7 + 2 / 3);
    expect(half).toMatchObject({ doing: 'runs', place: 2, headingDegrees: 90 });
    expect(half?.y).toBeCloseTo(9.7, 9);
    expect(walk.handler(0.7 + 4 / 3 - 0.2)).toMatchObject({ doing: 'turns', place: 2 });
    expect(walk.handler(60)).toMatchObject({ y: 10.7, doing: 'waits' });
  });

  it('never jumps: no one goes further in a hundredth of a second than her top speed allows', () => {
    for (let t = -0.2; t < 4; t += 0.01) {
      const [a, b] = [walk.handler(t), walk.handler(t + 0.01)];
      expect(Math.hypot((b?.x ?? 99) - (a?.x ?? 0), (b?.y ?? 99) - (a?.y ?? 0))).toBeLessThan(0.061);
    }
  });

  it('is empty without a line', () => {
    const none = { steps: [], stretches: [], length: 0, seconds: 0 };
    const bare = PlanSheet.parse({});
    const empty = walkThrough(none, timePlan(course, bare, none, { committedAt: 3.5, takeOff: 1.5 }));
    expect([empty.seconds, empty.dog(1), empty.handler(1)]).toEqual([0, null, null]);
  });
});
