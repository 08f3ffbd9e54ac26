import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Course } from '../../../src/course/course.ts';
import { courseMap } from '../../../src/course/courseMap.ts';
import { ReviewDocument } from '../../../src/review/document.ts';

const demo = resolve(import.meta.dirname, '../../../fixtures/demo');
const read = (name: string): unknown => JSON.parse(readFileSync(resolve(demo, name), 'utf8'));

/** Where the simulator, which shares no code with the map, says the dog goes in and which way it runs there. */
interface Truth {
  readonly ring: { readonly depth: number };
  readonly sequence: readonly {
    readonly number: number;
    readonly approach: number;
    readonly entry: readonly [number, number];
  }[];
}

const { course } = ReviewDocument.parse(read('first-evening.walkback.json'));
const truth = read('course.truth.json') as Truth;

describe('the numbers on the drawn course', () => {
  it('stand on the approach side of every obstacle, before the place where the dog goes in', () => {
    const map = courseMap(course);
    expect(map?.toScale).toBe(true);
    const wrong = truth.sequence.flatMap(({ number, approach, entry: [x, y] }) => {
      const board = map?.shapes.find((s) => s.shape === 'number' && s.text === String(number));
      if (board?.shape !== 'number') return [`${number} is missing`];
      const before =
        (x - board.x) * Math.cos(approach) + (y - (truth.ring.depth - board.y)) * Math.sin(approach);
      const away = Math.hypot(x - board.x, y - (truth.ring.depth - board.y));
      return before > 0 && away < 4
        ? []
        : [`${number}: ${before.toFixed(2)} m before, ${away.toFixed(2)} m away`];
    });
    expect(wrong).toEqual([]);
  });

  it('stand at the other mouth of a tunnel that is run the other way', () => {
    const bend = [
      { x: 2, y: 5 },
      { x: 4, y: 5 },
      { x: 6, y: 7 },
    ];
    const tunnel = Course.parse({
      ring: { width: 20, length: 20 },
      obstacles: [
        { id: 't', kind: 'tunnel', stand: { x: 4, y: 5, headingDegrees: 0, bend } },
        { id: 'j', kind: 'barJump', stand: { x: 15, y: 15, headingDegrees: 0 } },
      ],
      steps: [
        { number: 1, obstacleId: 't' },
        { number: 2, obstacleId: 'j' },
        { number: 3, obstacleId: 't', direction: 'reverse' },
      ],
    });
    const at = (text: string) =>
      courseMap(tunnel)?.shapes.find((s) => s.shape === 'number' && s.text === text);
    const [one, three] = [at('1'), at('3')];
    if (one?.shape !== 'number' || three?.shape !== 'number') throw new Error('a number is missing');
    expect(one.x).toBeLessThan(2);
    expect(three.x).toBeGreaterThan(6);
    expect(20 - three.y).toBeGreaterThan(7);
  });
});
