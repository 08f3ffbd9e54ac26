import { describe, expect, test } from 'vitest';
import type { Course } from '../../../src/course/course.ts';
import type { LikelyLine } from '../../../src/line/line.ts';
import { likelyLine } from '../../../src/line/likelyLine.ts';
import { runnerWith } from '../../../src/line/runner.ts';
import { courseOf, row } from '../../unit/course/courses.ts';

// Lines that plane geometry and uniform acceleration give in closed form; every bar square across its middle.
const reach = 1.5;
const runner = runnerWith({ takeOff: reach, landing: reach });
const { topSpeed: top, pickUp, braking, grip, leastRadius } = runner;

function centred(course: Course): LikelyLine {
  const line = likelyLine(course, { runner, centred: true });
  if (!line) throw new Error('no line');
  return line;
}

/** Seconds of turn, straight, turn: into and out of the turns at a price, between them up to a peak and down. */
function turnStraightTurn(radius: number, turned: number, straight: number): number {
  const v = Math.min(top, Math.sqrt(grip * radius));
  const price = ((top - v) ** 2 / (2 * top)) * (1 / braking + 1 / pickUp);
  const room = ((top * top - v * v) / 2) * (1 / pickUp + 1 / braking);
  const peak = Math.sqrt(v * v + (2 * straight) / (1 / pickUp + 1 / braking));
  const between =
    straight < room
      ? (peak - v) * (1 / pickUp + 1 / braking)
      : (top - v) * (1 / pickUp + 1 / braking) + (straight - room) / top;
  return (radius * turned) / v + price + between;
}

const widest = (top * top) / grip;

describe('the line in closed form', () => {
  test('a straight line of jumps', () => {
    const [count, apart] = [6, 6.5];
    const line = centred(row(count, apart));
    // She stands 1 m before a start line that lies 2 m before the first bar, and runs to 2 m behind the last.
    expect(line.length).toBeCloseTo(3 + (count - 1) * apart + 2, 9);
    const off = 3 - reach;
    const speed = Math.sqrt(2 * pickUp * off);
    const start = speed / pickUp + (top - speed) ** 2 / (2 * pickUp * top);
    expect(line.seconds).toBeCloseTo(start + ((count - 1) * apart + 2 + reach) / top, 9);
  });

  test('a circle of eight jumps', () => {
    const circle = 8;
    const line = centred(
      courseOf(
        Array.from({ length: 8 }, (_, i) => {
          const a = (i * Math.PI) / 4;
          return { at: [20 + circle * Math.cos(a), 20 + circle * Math.sin(a), (i * 45 + 90) % 360] as const };
        }),
      ),
    );
    const half = Math.PI / 8;
    const straight = (radius: number): number =>
      2 * ((circle - radius) * Math.sin(half) - reach * Math.cos(half));
    const between = line.stretches.slice(1, -1);
    expect(between).toHaveLength(7);
    for (const { length, seconds, radius, turnDegrees } of between) {
      expect(turnDegrees).toBeCloseTo(45, 6);
      const r = radius ?? NaN;
      expect(length).toBeCloseTo((r * Math.PI) / 4 + straight(r), 6);
      expect(seconds).toBeCloseTo(turnStraightTurn(r, Math.PI / 4, straight(r)), 6);
      // No other radius that leaves a straight is quicker by more than the radii stand apart.
      for (let other = leastRadius; other <= widest && straight(other) >= 0; other *= 1.02)
        expect(seconds).toBeLessThan(turnStraightTurn(other, Math.PI / 4, straight(other)) * 1.02);
    }
  });

  test('a turn of 180 degrees', () => {
    const apart = 7;
    const line = centred(courseOf([{ at: [0, 0, 0] }, { at: [0, apart, 180] }]));
    const turn = line.stretches[1];
    const r = turn?.radius ?? NaN;
    expect(turn?.turnDegrees).toBeCloseTo(180, 6);
    expect(turn?.length).toBeCloseTo(Math.PI * r + apart - 2 * r, 6);
    expect(turn?.seconds).toBeCloseTo(turnStraightTurn(r, Math.PI, apart - 2 * r), 6);
    for (let other = leastRadius; other <= apart / 2; other *= 1.02)
      expect(turn?.seconds).toBeLessThan(turnStraightTurn(other, Math.PI, apart - 2 * other) * 1.02);
  });
});
