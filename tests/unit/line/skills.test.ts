import { expect, test } from 'vitest';
import { DogSkills, entriesLike, entryBand } from '../../../src/line/skills.ts';

const entry = (side: 'on' | 'off', done: number, tried: number) => ({
  side,
  band: 'to60',
  count: { done, tried },
});

test('a dog nobody has noted anything of has skills that say nothing', () => {
  expect(DogSkills.parse({})).toEqual({ weaveEntries: [], neverMet: [], verbalTurns: {} });
  expect(entriesLike(DogSkills.parse({}), 'on', 45)).toBeUndefined();
});

test('an entry is found by its side and how far off the poles it is', () => {
  const skills = DogSkills.parse({ weaveEntries: [entry('on', 9, 10), entry('off', 3, 10)] });
  expect(entriesLike(skills, 'off', -45)).toEqual({ done: 3, tried: 10 });
  expect(entriesLike(skills, 'off', 61)).toBeUndefined();
  expect([0, 30, 30.1, -60, 90, 90.1, 180].map(entryBand)).toEqual([
    'to30',
    'to30',
    'to60',
    'to60',
    'to90',
    'over90',
    'over90',
  ]);
});

test.each([
  ['more done than tried', { stay: { done: 3, tried: 2 } }, /more were done than were tried/],
  ['the same entry twice', { weaveEntries: [entry('on', 1, 2), entry('on', 1, 2)] }, /stands twice/],
  ['no number', { sentMetres: NaN }, /expected number/],
  ['a distance nobody can be sent', { sentMetres: 1e9 }, /<=100/],
  ['half a try', { stay: { done: 0.5, tried: 1 } }, /expected int/],
  ['equipment nobody knows', { neverMet: ['unknown'] }, /Invalid option/],
  ['a word that means nothing', { verbalTurns: { back: true } }, /Unrecognized key/],
])('refuses %s', (_, bad, why) => {
  expect(DogSkills.safeParse(bad).error?.message).toMatch(why);
});
