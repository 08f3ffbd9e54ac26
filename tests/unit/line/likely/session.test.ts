import { describe, expect, test } from 'vitest';
import type { Course } from '../../../../src/course/course.ts';
import { solidsOf, toNearest } from '../../../../src/line/likely/solids.ts';
import { createLineSession } from '../../../../src/line/likely/session.ts';
import type { LikelyLine } from '../../../../src/line/line.ts';
import { runnerWith } from '../../../../src/line/runner.ts';
import { courseOf } from '../../course/courses.ts';

const runner = runnerWith();
const wish = { runner };

/** Eight jumps round two corners, the fifth of them aside by so many metres. */
const course = (aside: number): Course =>
  courseOf([
    { at: [6, 5] },
    { at: [12, 6, 10] },
    { at: [18, 8, 40] },
    { at: [21, 14, 90] },
    { at: [18 + aside, 20, 150] },
    { at: [11, 21, 200] },
    { at: [7, 16, 250] },
    { at: [6, 10, 280] },
  ]);
const moves = Array.from({ length: 12 }, (_, k) => 0.25 * k);

const found = (line: LikelyLine | null): LikelyLine => {
  if (!line) throw new Error('no line');
  return line;
};

describe('a line that is found again while a jump is moved', () => {
  const session = createLineSession();
  session.settled(course(0), wish);
  const lines = moves.map((aside) => found(session.line(course(aside), wish)));

  // How seldom it is longer at all is the bench's to measure; what a coarse look misses is found once the hand rests.
  test('is at no move longer by a fifth of a percent than the plain programme over the same grid finds it', () => {
    const plain = createLineSession('grid');
    for (const [k, aside] of moves.entries()) {
      expect(lines[k]?.seconds).toBeLessThanOrEqual(found(plain.line(course(aside), wish)).seconds * 1.002);
    }
  });

  test('keeps clear of the equipment as it stands now', () => {
    for (const [k, aside] of moves.entries()) {
      const boxes = solidsOf(course(aside).obstacles);
      for (const stretch of lines[k]?.stretches ?? []) {
        expect(stretch.blocked).toBe(false);
        const inner = stretch.points.slice(1, -1);
        for (const p of inner) expect(toNearest(boxes, p)).toBeGreaterThan(runner.besideWing / 2);
      }
    }
  });

  test('is the line found from scratch once the hand rests, to a twentieth of a percent', () => {
    const at = course(moves.at(-1) ?? 0);
    const settled = found(session.settled(at, wish));
    const fresh = found(createLineSession().settled(at, wish));
    expect(Math.abs(settled.seconds / fresh.seconds - 1)).toBeLessThan(0.0005);
    expect(settled.seconds).toBeLessThanOrEqual((lines.at(-1)?.seconds ?? 0) + 1e-6);
  });
});
