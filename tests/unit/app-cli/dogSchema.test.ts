import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { Dog } from '../../../src/line/dog.ts';
import { dogFileOf } from '../../../src/line/dogFile.ts';
import { cli } from './cli.ts';

test('the schema of a dog takes what is written and refuses what is none (Ajv, JSON Schema draft 2020-12)', async () => {
  const { code, out } = await cli('schema', 'dog');
  expect(code).toBe(0);
  const fits = new Ajv2020({ strict: false, validateFormats: false }).compile(JSON.parse(out) as object);
  const whole = Dog.parse({
    ...{ id: 'd', name: 'Fen', runner: { landing: 2.2 } },
    skills: {
      ...{
        weaveEntries: [{ side: 'off', band: 'to60', count: { done: 3, tried: 10 } }],
        neverMet: ['seeSaw'],
      },
      ...{ stay: { done: 1, tried: 2 }, verbalTurns: { left: true } },
    },
  });
  const written = JSON.parse(dogFileOf(whole)) as { readonly dog: Dog };
  const least = { ...written, dog: { id: 'd', name: 'Fen' } };
  for (const file of [written, least]) expect(fits(file), JSON.stringify(fits.errors)).toBe(true);
  for (const change of [
    { format: 'walkback.rules' },
    { version: 2 },
    { wings: 2 },
    { dog: { ...written.dog, runner: { landing: 220 } } },
    { dog: { ...written.dog, skills: { neverMet: ['wings'] } } },
    { dog: { id: 'd' } },
  ])
    expect(fits({ ...written, ...change }), JSON.stringify(change)).toBe(false);
});
