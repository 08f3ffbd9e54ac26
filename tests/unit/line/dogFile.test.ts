import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Dog, figureBounds, runnerFigures } from '../../../src/line/dog.ts';
import { dogFileOf, readDogFile } from '../../../src/line/dogFile.ts';

test('a dog that was written is read as she was, whatever is known of her', () => {
  const figures = fc.record(
    Object.fromEntries(
      runnerFigures.map((figure) => {
        const { lowest, highest } = figureBounds(figure);
        return [figure, fc.double({ min: lowest, max: highest, noNaN: true }).map((v) => v + 0)];
      }),
    ),
    { requiredKeys: [] },
  );
  const name = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 8 }).map((s) => `Fen ${s}`);
  fc.assert(
    fc.property(name, figures, fc.string({ unit: 'grapheme' }), (called, runner, notes) => {
      const dog = Dog.parse({
        ...{ id: 'd', name: called, runner: { ...runner }, notes },
        skills: { stay: { done: 3, tried: 10 }, neverMet: ['seeSaw'], sentMetres: 12 },
      });
      expect(readDogFile(dogFileOf(dog))).toEqual({ ok: true, dog });
      expect(readDogFile(`\uFEFF${dogFileOf(dog)}`)).toEqual({ ok: true, dog });
    }),
    { numRuns: 50 },
  );
});

test('what a hand-written file leaves out is as assumed, or not known', () => {
  const text = '{"format":"walkback.dog","version":1,"dog":{"id":"d","name":"Fen"}}';
  expect(readDogFile(text)).toEqual({ ok: true, dog: Dog.parse({ id: 'd', name: 'Fen' }) });
});
