import { describe, expect, test } from 'vitest';
import type { Course } from '../../../../src/course/course.ts';
import { likelyLine } from '../../../../src/line/likelyLine.ts';
import { placesOf } from '../../../../src/line/reading/legs.ts';
import { rearPrices } from '../../../../src/line/reading/rearPrices.ts';
import { runnerWith } from '../../../../src/line/runner.ts';
import { DogSkills } from '../../../../src/line/skills.ts';
import { rearSentence } from '../../../../src/words/rearPrices.ts';
import { courseAt } from '../../plan/scene.ts';

const runner = runnerWith();

function prices(course: Course, number: number, skills?: DogSkills) {
  const line = likelyLine(course, { runner });
  if (!line) throw new Error('the course has no line');
  return rearPrices(placesOf(course, line), line, number, runner, skills);
}
function priced(course: Course, number: number, skills?: DogSkills) {
  const found = prices(course, number, skills);
  if (!found) throw new Error('nothing was priced');
  return found;
}
const tell = (course: Course, number: number, skills?: DogSkills) =>
  rearSentence(priced(course, number, skills), { course, unit: 'metres', dialect: 'british' });

/** Two jumps in line, then one that stands to the left. */
const turning = courseAt([8, 8], [14, 8], [17, 14, 90]);
const mirrored = courseAt([8, 12], [14, 12], [17, 6, 270]);

describe('a rear cross at a jump', () => {
  test('before it: a better turn for a harder entry; on the landing side the other way about, and later', () => {
    const { before, after, later } = priced(turning, 2);
    expect(before.turnDegrees).toBeGreaterThan(20);
    expect(after.turnDegrees).toBeGreaterThan(before.turnDegrees + 5);
    expect(before.sliceDegrees).toBeGreaterThan(5);
    expect(Math.abs(after.sliceDegrees)).toBeLessThan(before.sliceDegrees - 5);
    // She turns as far in all: what she does not jump turned she turns on the ground.
    expect(after.turnDegrees + after.sliceDegrees).toBeCloseTo(before.turnDegrees + before.sliceDegrees, 9);
    expect(later).toBeGreaterThan(0);
    expect(later).toBeLessThan(1);
    expect(tell(turning, 2)).toMatch(
      /^Crossed behind her before 2: a better turn, \d+° to the left in place of \d+°, but a harder entry, 2 at a slant of \d+° in place of \d°\. On its landing side: 2 straight on, at \d°, but she is at 3 \(the bar jump\) 0\.\d s later/,
    );
  });

  test('is the same in a mirror', () => {
    const [left, right] = [priced(turning, 2), priced(mirrored, 2)];
    expect(right.before.turnDegrees).toBeCloseTo(-left.before.turnDegrees, 1);
    expect(right.after.sliceDegrees).toBeCloseTo(-left.after.sliceDegrees, 1);
    expect(right.later).toBeCloseTo(left.later, 2);
  });

  test('where the course runs straight on it costs nothing on the landing side', () => {
    const course = courseAt([8, 10], [14, 10], [20, 10]);
    const { before, after, later } = priced(course, 2);
    expect([before.turnDegrees, after.turnDegrees, before.sliceDegrees, after.sliceDegrees]).toEqual(
      [0, 0, 0, 0].map((zero): unknown => expect.closeTo(zero, 2)),
    );
    expect(later).toBeCloseTo(0, 3);
    expect(tell(course, 2)).toMatch(
      /runs on, turning \d°: a rear cross on the landing side of 2 costs no entry/,
    );
  });

  test('straight on is no more oblique than she takes a bar', () => {
    const aslant = courseAt([8, 10], [14, 10, 70], [16, 16, 90]);
    expect(Math.abs(priced(aslant, 2).after.sliceDegrees)).toBeCloseTo(runner.sliceMost, 9);
  });

  test('into poles: with the entries she has done', () => {
    const course = courseAt([8, 8], [14, 8], [17, 14, 90, 'weavePoles']);
    const count = { done: 3, tried: 10 };
    const weaveEntries = (['on', 'off'] as const).flatMap((side) =>
      (['to30', 'to60', 'to90', 'over90'] as const).map((band) => ({ side, band, count })),
    );
    const skills = DogSkills.parse({ weaveEntries });
    expect(priced(course, 2, skills)).toMatchObject({ before: { count }, after: { count } });
    expect(tell(course, 2, skills)).toMatch(/is then an entry she has done 3 of 10 times\./);
    expect(priced(course, 2).before.count).toBeUndefined();
  });

  test('is not priced where she does not fly, nor where nothing follows, nor at a number that is not there', () => {
    expect(prices(courseAt([8, 8], [14, 8, 0, 'tunnel'], [20, 14, 90]), 2)).toBeUndefined();
    expect(prices(turning, 3)).toBeUndefined();
    expect(prices(turning, 9)).toBeUndefined();
  });
});
