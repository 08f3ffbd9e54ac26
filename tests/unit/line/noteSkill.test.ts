import { expect, test } from 'vitest';
import { withEntry, withSkill, withTurn } from '../../../src/line/noteSkill.ts';
import { DogSkills, entriesLike } from '../../../src/line/skills.ts';

const none = DogSkills.parse({});

test('counts of entries stand once by side and angle, in their order, and go again', () => {
  const far = withEntry(none, 'off', 'to90', { done: 3, tried: 10 });
  const both = withEntry(far, 'on', 'to30', { done: 8, tried: 9 });
  expect(both.weaveEntries.map((e) => e.side)).toEqual(['on', 'off']);
  const again = withEntry(both, 'off', 'to90', { done: 4, tried: 11 });
  expect(DogSkills.parse(again)).toEqual(again);
  expect(entriesLike(again, 'off', 75)).toEqual({ done: 4, tried: 11 });
  expect(withEntry(far, 'off', 'to90', undefined)).toEqual(none);
});

test('what is not known any more is absent, not undefined', () => {
  const stays = withSkill(none, 'stay', { done: 1, tried: 2 });
  expect(stays.stay).toEqual({ done: 1, tried: 2 });
  expect(Object.keys(withSkill(stays, 'stay', undefined))).toEqual(Object.keys(none));
  const left = withTurn(withTurn(none, 'left', true), 'right', false);
  expect(left.verbalTurns).toEqual({ left: true, right: false });
  expect(Object.keys(withTurn(left, 'left', undefined).verbalTurns)).toEqual(['right']);
});
