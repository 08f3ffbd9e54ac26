import { describe, expect, test } from 'vitest';
import { emptyCourse, type Course } from '../../../src/course/course.ts';
import { drawnSizes } from '../../../src/course/equipment.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { solidsOf, toNearest } from '../../../src/line/likely/solids.ts';
import { createRangeSession, likelyLine } from '../../../src/line/likelyLine.ts';
import type { LikelyLine, LineWish } from '../../../src/line/line.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { courseOf, row } from '../course/courses.ts';

const runner = runnerWith();
const wish: LineWish = { runner };

function lineOf(course: Course, more: Partial<LineWish> = {}): LikelyLine {
  const line = likelyLine(course, { ...wish, ...more });
  if (!line) throw new Error('no line');
  return line;
}

describe('the likely line', () => {
  test('wants two numbers that stand on the grass', () => {
    expect(likelyLine(emptyCourse(), wish)).toBeNull();
    expect(likelyLine(row(1, 6), wish)).toBeNull();
    expect(likelyLine(courseOf([{ at: [0, 0] }, {}]), wish)).toBeNull();
    expect(createRangeSession()(row(1, 6), wish)).toBeNull();
  });

  test('a row of jumps is run straight: one stretch more than numbers, times that follow one another', () => {
    const line = lineOf(row(4, 6));
    expect(line.steps.map((s) => s.number)).toEqual([1, 2, 3, 4]);
    expect(line.stretches.map((s) => [s.from, s.to])).toEqual([
      [null, 1],
      [1, 2],
      [2, 3],
      [3, 4],
      [4, null],
    ]);
    for (const stretch of line.stretches) {
      expect(stretch.blocked).toBe(false);
      expect(Math.abs(stretch.turnDegrees)).toBeLessThan(1e-6);
    }
    const times = line.steps.flatMap((s) => [s.inAt, s.outAt]);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    expect(line.seconds).toBeGreaterThan(times.at(-1) ?? NaN);
  });

  test('goes on from where she is said to land', () => {
    const course = row(3, 7);
    const at = { x: 9, y: 1.5 };
    const line = lineOf(course, { landings: new Map([[2, at]]) });
    const second = line.steps[1];
    expect(second?.exit).toMatchObject(at);
    expect(line.stretches[2]?.points[0]).toEqual(at);
    expect(line.seconds).toBeGreaterThan(lineOf(course).seconds);
  });

  test('does not wait where equipment stands, and says so where she is made to', () => {
    // The usual place, 3 m before the bar, lies 0.1 m before the side of an A-frame.
    const width = drawnSizes('aFrame').aFrameWidth;
    const course = courseOf([
      { at: [0, 0, 0] },
      { at: [7, 0, 0] },
      { kind: 'aFrame', at: [-(3.1 + width / 2), 0.5, 90] },
    ]);
    const waiting = lineOf(course).stretches[0];
    const away = (p: GroundPoint | undefined): number => (p ? toNearest(solidsOf(course.obstacles), p) : NaN);
    expect(away({ x: -3, y: 0 })).toBeCloseTo(0.1, 6);
    expect(away(waiting?.points[0])).toBeGreaterThanOrEqual(runner.besideWing);
    expect(waiting?.blocked).toBe(false);
    expect(lineOf(course, { start: { x: -3, y: 0 } }).stretches[0]?.blocked).toBe(true);
  });

  test('a wide dog turns on a longer way than a tight one', () => {
    const course = courseOf([{ at: [0, 0, 0] }, { at: [0, 5, 180] }]);
    const range = createRangeSession()(course, wish);
    if (!range) throw new Error('no range');
    expect(range.tight.length).toBeLessThan(range.usual.length);
    expect(range.usual.length).toBeLessThan(range.wide.length);
  });
});
