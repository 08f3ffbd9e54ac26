import { expect, test } from 'vitest';
import type { Course } from '../../../src/course/course.ts';
import { needs } from '../../../src/line/reading/needs.ts';
import { readCourse } from '../../../src/line/reading/readCourse.ts';
import type { Remark } from '../../../src/line/reading/remark.ts';
import { ReadingThresholds } from '../../../src/line/reading/thresholds.ts';
import { DogSkills } from '../../../src/line/skills.ts';
import { countedCourse } from '../../../src/course/course.ts';
import { needSentence, remarkSentence } from '../../../src/words/reading.ts';
import type { ReadingTold } from '../../../src/words/told.ts';
import { courseOf } from '../course/courses.ts';
import { plainLine } from '../line/plainLine.ts';

type Kind = Remark['remark'];

function told(course: Course, kind: Kind, skills = {}, more: Partial<ReadingTold> = {}): string[] {
  const { remarks } = readCourse({
    course,
    line: plainLine(course),
    thresholds: ReadingThresholds.parse({}),
    skills: DogSkills.parse(skills),
  });
  return remarks
    .filter((r) => r.remark === kind)
    .map((r) => remarkSentence(r, { course, unit: 'metres', dialect: 'british', ...more }));
}

const frameAndPoles = courseOf([
  { at: [0, 0, 35], nickname: 'the spread', kind: 'spread' },
  { kind: 'weavePoles', at: [13.3, 2, 0] },
  { kind: 'aFrame', at: [6, 1, 90] },
]);

test('what she sees as she lands, and what hides it', () => {
  expect(told(frameAndPoles, 'sight')[0]).toBe(
    'From 1 (the spread) she lands 1.4 m past it, facing 27° left of 2 (the weave poles); the A-frame (3) hides the first two poles.',
  );
});

test('the entry of the poles, with what she has done', () => {
  const course = courseOf([{ at: [0, 5, -20] }, { kind: 'weavePoles', at: [13.3, 2, 0] }]);
  const skills = { weaveEntries: [{ side: 'off', band: 'to30', count: { done: 1, tried: 4 } }] };
  expect(told(course, 'entry', skills)).toEqual([
    'Into 2 (the weave poles) she comes from the left, 16° off their line: she has to bend round the first pole to have it at her left shoulder (off-side). She has done such an entry 1 of 4 times; few tries to go by.',
  ]);
});

test('room to be square or straight is asked for where a slant can hurt', () => {
  const slanted = (kind: 'tyre' | 'aFrame' | 'barJump') =>
    told(courseOf([{ at: [0, 0] }, { kind, at: [6, 5, 90] }]), 'entry')[0];
  expect(slanted('tyre')).toMatch(
    /^To 2 \(the tyre\) she comes from the left, 4\d° off square: give her room to be square/,
  );
  expect(slanted('aFrame')).toMatch(/° off its line: give her room to be straight before she steps on\.$/);
  expect(slanted('barJump')).toMatch(/° off square\.$/);
});

test('metres or feet, and the equipment in either dialect', () => {
  const course = courseOf([
    { at: [0, 0] },
    { at: [5.02, 0], kind: 'seeSaw' },
    { at: [10.8, 0], kind: 'tyre' },
  ]);
  expect(told(course, 'way')).toEqual([
    'From 1 to 2 (the see-saw): 1.8 m, straight on.',
    'From 2 to 3 (the tyre): 2.2 m, straight on.',
  ]);
  expect(told(course, 'way', {}, { unit: 'feet', dialect: 'american' })).toEqual([
    'From 1 to 2 (the teeter): 5.8 ft, straight on.',
    'From 2 to 3 (the tire): 7.3 ft, straight on.',
  ]);
  expect(told(course, 'neverMet', { neverMet: ['seeSaw'] }, { dialect: 'american' })).toEqual([
    'She has never met this: the teeter at 2. Let her learn it by itself first, low and slow.',
  ]);
});

test('traps name the piece, its numbers and where the right one lies', () => {
  const course = courseOf([
    { at: [0, 0] },
    { at: [4, 5, 90] },
    { at: [4, 10, 90] },
    { kind: 'tunnel', at: [8.52, 0.2, 0] },
  ]);
  expect(told(course, 'trap')[0]).toBe(
    'Ahead of her from 1 (the bar jump) stands the tunnel (4): 4.6 m straight ahead; 2 lies 63° to the left.',
  );
});

test('a bar met on its wrong side, and the wrong mouth of the next tunnel', () => {
  const backside = courseOf([{ at: [0, 0] }, { at: [6, 0, 180] }]);
  expect(told(backside, 'trap')[0]).toBe(
    'Ahead of her from 1 (the bar jump) stands 2 (the bar jump) the wrong way round, a back jump: 4.6 m straight ahead; she has to go round it first.',
  );
  const bent = courseOf([
    { at: [0, 0] },
    {
      kind: 'tunnel',
      at: [8, 1.5, 90],
      bend: [
        [6, 3],
        [8.5, 2.8],
        [8.5, 0.3],
        [6, 0],
      ],
    },
  ]);
  expect(told(bent, 'trap')[0]).toMatch(
    /^Ahead of her from 1 \(the bar jump\) stands the wrong mouth of 2 \(the tunnel\): 4\.\d m straight ahead; the right one lies 3\d° to the left\.$/,
  );
});

test('a side change says which hand comes after which', () => {
  const course = courseOf([{ at: [0, 0, 60] }, { at: [4, 2, -60] }, { at: [8, 0, 60] }]);
  expect(told(course, 'sideChange')[0]).toBe(
    'At 2 (the bar jump) the course goes over from right turns to left turns: a side change fits there, from dog on your left to dog on your right.',
  );
});

test('her stay, how far she goes on alone, and her words for turns', () => {
  const course = courseOf([{ at: [0, 0] }, { at: [8, 8, 90] }]);
  const skills = { stay: { done: 6, tried: 10 }, sentMetres: 4, verbalTurns: { left: true } };
  expect(told(course, 'start', skills)[0]).toBe(
    'From where she waits it is 2.0 m to the first take-off. She has kept her stay 6 of 10 times.',
  );
  expect(told(course, 'sent', skills)[0]).toMatch(
    /^From 1 it is up to 9\.\d m to the next, and she has been sent 4\.0 m:/,
  );
  expect(told(course, 'way', skills)[0]).toMatch(/turning 90° to the left\. She turns left on a word\.$/);
});

test('what a course of numbers would need, in runs', () => {
  expect(needs(countedCourse(20)).map(needSentence)).toEqual([
    'Say how large the ring is.',
    'Say what stands at 1 to 20: a dog takes a tunnel otherwise than a jump.',
    'Place 1 to 20 on the grass: distances and angles are measured there.',
  ]);
});
