import { describe, expect, it } from 'vitest';
import type { Course } from '../../../src/course/course.ts';
import { takenFromLine } from '../../../src/track/takenFromLine.ts';
import { lineThrough, readingsOf } from './lines.ts';

const jump = (id: string, x: number, y: number, headingDegrees = 0): Course['obstacles'][number] => ({
  id,
  kind: 'barJump',
  nickname: '',
  stand: { x, y, headingDegrees },
});
const step = (number: number, obstacleId: string, direction: 'forward' | 'reverse' = 'forward') => ({
  number,
  obstacleId,
  direction,
});

/** Three jumps in a row, then back over the first two. */
const course: Course = {
  name: '',
  obstacles: [jump('a', 5, 0), jump('b', 10, 0), jump('c', 15, 0), jump('d', 10, 3)],
  steps: [step(1, 'a'), step(2, 'b'), step(3, 'c'), step(4, 'b', 'reverse'), step(5, 'a', 'reverse')],
};

/** 5 m/s there on y = 0, a turn of 1.5 m radius, back on y = `back`. */
const thereAndBack = (back: number) =>
  readingsOf(
    (t) => {
      const turn = (Math.PI * back) / 2 / 5;
      if (t < 3.6) return { x: 5 * t, y: 0 };
      if (t > 3.6 + turn) return { x: 18 - 5 * (t - 3.6 - turn), y: back };
      const angle = ((t - 3.6) / turn) * Math.PI;
      return { x: 18 + (back / 2) * Math.sin(angle), y: (back / 2) * (1 - Math.cos(angle)) };
    },
    0,
    7.4,
    0.2,
  );

describe('obstacles taken from the line', () => {
  it('in the order of the course, with their moments', () => {
    const line = lineThrough({
      readings: readingsOf((t) => ({ x: 5 * t, y: 0.2 }), 0, 4),
      flights: [{ from: 0.7, to: 1.2, unsure: 0.01 }],
    });
    const { taken, notSeen } = takenFromLine(line, course, new Set());
    expect(taken.map((t) => [t.obstacleId, t.direction, t.as])).toEqual([
      ['a', 'forward', { place: 1 }],
      ['b', 'forward', { place: 2 }],
      ['c', 'forward', { place: 3 }],
    ]);
    expect(taken[0]?.through.at.value).toBeCloseTo(1, 1);
    expect(taken[0]?.through.aside.value).toBeCloseTo(0.2, 1);
    // The first was flown: its take-off and landing are known; of the others only the plane is.
    expect(taken[0]?.in).toMatchObject({ value: 0.7, plusMinus: 0.02 });
    expect(taken[0]?.out?.value).toBe(1.2);
    expect(taken[1]).toMatchObject({ in: null, out: null });
    expect(notSeen).toEqual([4, 5]);
  });

  it('each number its own visit, and a wrong one is told', () => {
    // Back over d, which carries no number, instead of b; then past a.
    const { taken, notSeen } = takenFromLine(lineThrough({ readings: thereAndBack(3) }), course, new Set());
    expect(taken.map((t) => [t.obstacleId, t.as])).toEqual([
      ['a', { place: 1 }],
      ['b', { place: 2 }],
      ['c', { place: 3 }],
      ['d', { wrong: 'notNumbered' }],
    ]);
    expect(notSeen).toEqual([4, 5]);
  });

  it('against the way, and out of order', () => {
    const back = lineThrough({ readings: readingsOf((t) => ({ x: 18 - 5 * t, y: 0 }), 0, 3.4) });
    const { taken } = takenFromLine(back, course, new Set());
    expect(taken.map((t) => [t.obstacleId, t.direction, t.as])).toEqual([
      ['c', 'reverse', { wrong: 'direction' }],
      ['b', 'reverse', { place: 4 }],
      ['a', 'reverse', { place: 5 }],
    ]);
    const early = { ...course, steps: [step(1, 'b'), step(2, 'a')] };
    const there = lineThrough({ readings: readingsOf((t) => ({ x: 5 * t, y: 0 }), 0, 4) });
    const wrong = takenFromLine(there, early, new Set()).taken.map((t) => t.as);
    expect(wrong).toContainEqual({ wrong: 'order' });
  });

  it('never what the coach has marked', () => {
    const line = lineThrough({ readings: readingsOf((t) => ({ x: 5 * t, y: 0 }), 0, 4) });
    const { taken, notSeen } = takenFromLine(line, course, new Set([2, 5]));
    expect(taken.map((t) => t.as)).toEqual([{ place: 1 }, { place: 3 }]);
    expect(notSeen).toEqual([4]);
  });

  it('running by is not taking', () => {
    const line = lineThrough({ readings: readingsOf((t) => ({ x: 5 * t, y: 1.4 }), 0, 4) });
    expect(takenFromLine(line, course, new Set()).taken).toEqual([]);
  });

  it('too near the wing to tell: proposed where a number asks for it, never called wrong', () => {
    const near = readingsOf((t) => ({ x: 5 * t, y: 0.6 }), 0, 4, 0.4, 0.2);
    const { taken } = takenFromLine(lineThrough({ readings: near }), course, new Set());
    expect(taken.map((t) => [t.as, t.through.inside])).toEqual([
      [{ place: 1 }, 'maybe'],
      [{ place: 2 }, 'maybe'],
      [{ place: 3 }, 'maybe'],
    ]);
    expect(takenFromLine(lineThrough({ readings: near }), { ...course, steps: [] }, new Set()).taken).toEqual(
      [],
    );
  });

  it('poles and tunnels are run through from end to end', () => {
    const through: Course = {
      name: '',
      obstacles: [
        { id: 'poles', kind: 'weavePoles', nickname: '', stand: { x: 6, y: 0, headingDegrees: 0 } },
        { id: 'tube', kind: 'tunnel', nickname: '', stand: { x: 16, y: 0, headingDegrees: 180 } },
      ],
      steps: [step(1, 'poles'), step(2, 'tube', 'reverse')],
    };
    const line = lineThrough({ readings: readingsOf((t) => ({ x: 5 * t, y: 0.05 }), 0, 4, 0.2) });
    const { taken } = takenFromLine(line, through, new Set());
    expect(taken.map((t) => [t.obstacleId, t.as])).toEqual([
      ['poles', { place: 1 }],
      ['tube', { place: 2 }],
    ]);
    // Twelve poles 0.6 m apart: 6.6 m at 5 m/s.
    const [poles] = taken;
    expect((poles?.out?.value ?? NaN) - (poles?.in?.value ?? NaN)).toBeCloseTo(1.32, 1);
    const half = lineThrough({ readings: readingsOf((t) => ({ x: 5 * t, y: 0 }), 0, 1.4, 0.2) });
    expect(takenFromLine(half, through, new Set()).taken).toEqual([]);
  });

  it('courses of bare numbers have no planes', () => {
    const bare: Course = { ...course, obstacles: course.obstacles.map(({ stand: _, ...o }) => o) };
    const line = lineThrough({ readings: readingsOf((t) => ({ x: 5 * t, y: 0 }), 0, 4) });
    expect(takenFromLine(line, bare, new Set())).toEqual({ taken: [], notSeen: [] });
  });
});
