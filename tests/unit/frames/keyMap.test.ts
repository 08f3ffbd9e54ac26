import fc from 'fast-check';
import { expect, test } from 'vitest';
import { KeyMap } from '../../../src/frames/keyMap.ts';

test('knows what it was told, and what follows from it', () => {
  const map = new KeyMap();
  expect(map.firstFrom(0)).toBeUndefined();
  map.learn(70, 50);
  expect(map.firstFrom(50)).toBe(50);
  expect(map.firstFrom(60)).toBe(50);
  expect(map.firstFrom(70)).toBe(50);
  expect(map.firstFrom(71)).toBeUndefined();
  expect(map.firstFrom(49)).toBeUndefined();
  map.learn(75, 75);
  map.learn(74, 50);
  map.learn(3, 0);
  expect(map.firstFrom(74)).toBe(50);
  expect(map.firstFrom(75)).toBe(75);
  expect(map.firstFrom(2)).toBe(0);
});

test('never says anything that was not so, in whatever order it learns', () => {
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.integer({ min: 1, max: 200 }), { maxLength: 12 }),
      fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 60 }),
      (later, asked) => {
        const keys = [0, ...later].sort((a, b) => a - b);
        const truth = (f: number): number => keys.filter((k) => k <= f).at(-1) ?? 0;
        const map = new KeyMap();
        for (const f of asked) {
          map.learn(f, truth(f));
          expect(map.firstFrom(f)).toBe(truth(f));
        }
        for (let f = 0; f <= 200; f++) expect([undefined, truth(f)]).toContain(map.firstFrom(f));
      },
    ),
    { numRuns: 30 },
  );
});
