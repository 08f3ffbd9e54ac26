import { describe, expect, it } from 'vitest';
import { Course, countedCourse } from '../../../src/course/course.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { assumedRunUp, suggestedWait, waitFrom } from '../../../src/plan/wait.ts';
import { waitSentence } from '../../../src/words/plan.ts';
import { courseAt } from './scene.ts';

const runner = runnerWith();

describe('where the dog waits', () => {
  it('is on the line through the middles of 1 and 2, a run-up before 1', () => {
    // 2 lies 6 ahead and 2.5 to the left: 6.5 along the line (5-12-13 triangle), so 4 m back is (-48/13, -20/13).
    const spot = suggestedWait(courseAt([10, 10], [16, 12.5]), runner);
    expect(spot?.at.x).toBeCloseTo(10 - 48 / 13, 7);
    expect(spot?.at.y).toBeCloseTo(10 - 20 / 13, 7);
    expect(spot).toMatchObject({ inLine: true, insideRing: true });
    expect(spot?.runUp).toBeCloseTo(assumedRunUp.usual, 9);
    expect(spot?.offset).toBeCloseTo(0, 7);
    expect(spot?.sliceDegrees).toBeCloseTo((Math.atan2(2.5, 6) * 180) / Math.PI, 5);
    expect(spot?.turnDegrees).toBeCloseTo(0, 5);
    expect(spot && waitSentence(spot, 'metres')).toMatch(
      /in one line for her: she takes 1 at its middle, at 23° to the left/,
    );
  });

  it('is no more oblique than she takes a bar, and then the turn that is left is told', () => {
    // 2 lies at 60 degrees; she slices 40 at the most, so 20 are left to turn behind 1.
    const spot = suggestedWait(courseAt([20, 5], [23, 5 + 3 * Math.sqrt(3)]), runner);
    expect(spot?.inLine).toBe(false);
    expect(spot?.turnDegrees).toBeCloseTo(20, 6);
    expect(spot && waitSentence(spot, 'metres')).toMatch(
      /do not stand in one line: behind 1 she turns 20° to the left/,
    );
  });

  it('comes nearer where the ring ends, though not nearer than the least run-up', () => {
    expect(suggestedWait(courseAt([3, 10], [9, 10]), runner)?.at.x).toBeCloseTo(0, 9);
    const close = suggestedWait(courseAt([2, 10], [8, 10]), runner);
    expect(close?.runUp).toBeCloseTo(assumedRunUp.least, 9);
    expect(close?.insideRing).toBe(false);
  });

  it('placed by hand shows where and how obliquely 1 is crossed on the way to 2', () => {
    // From (6, 11) to (16, 10): at x = 10 she is at y = 10.6, off a bar of 1.3 m but for its last hand.
    const wide = waitFrom(courseAt([10, 10], [16, 10]), { x: 6, y: 11 }, runner);
    expect(wide?.offset).toBeCloseTo(0.6, 9);
    expect(wide?.sliceDegrees).toBeCloseTo((Math.atan2(-1, 10) * 180) / Math.PI, 5);
    expect(wide?.inLine).toBe(false);
    const near = waitFrom(courseAt([10, 10], [16, 10]), { x: 6, y: 10.5 }, runner);
    expect(near?.offset).toBeCloseTo(0.3, 9);
    expect(near && waitSentence(near, 'metres')).toMatch(/0\.3 m left of its middle, at 3° to the right/);
  });

  it('is not told behind 1, on a count, on one number, or where 2 lies behind 1 in line', () => {
    expect(waitFrom(courseAt([10, 10], [16, 10]), { x: 12, y: 10 }, runner)).toBeNull();
    expect(suggestedWait(countedCourse(5), runner)).toBeNull();
    expect(suggestedWait(courseAt([10, 10]), runner)).toBeNull();
    expect(suggestedWait(Course.parse({}), runner)).toBeNull();
    expect(waitFrom(courseAt([10, 10], [4, 10]), { x: 6, y: 10 }, runner)?.inLine).toBe(false);
  });
});
