import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { bookInput, ours } from '../course/rules/books.ts';
import { cli, folder } from './cli.ts';

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

async function rules(content: unknown) {
  const path = join(await folder(), 'mine.json');
  await writeFile(
    path,
    typeof content === 'string' || Buffer.isBuffer(content) ? content : JSON.stringify(content),
  );
  return cli('rules', path);
}

describe('rules', () => {
  test('without a file: the worked book, each entry with its source; as JSON it is taken in again', async () => {
    const { code, out } = await cli('rules');
    expect(code).toBe(0);
    expect(out).toContain('categories = ');
    expect(out).toContain('Singapore Kennel Club');
    expect(out).toContain('from memory, not read');
    const json = await cli('rules', '--json');
    expect(JSON.parse(json.out)).toEqual(fci2023);
    expect((await rules(json.out)).code).toBe(0);
  });

  test('a book of one’s own', async () => {
    const { code, out, err } = await rules(
      bookInput({ course: { hurdles: { value: { least: 3, kinds: ['barJump'] }, source: ours } } }),
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('course.hurdles = {"least":3,"kinds":["barJump"]}');
    expect(out).toContain('our own sheet');
  });

  test('what is wrong with one: a line for each problem, each naming the file', async () => {
    const bars = { value: [{ category: 'XL', least: 1, most: 2 }], source: ours };
    const ranking = { value: { keys: ['time', 'time'], ties: 'runOff' }, source: ours };
    const { code, out, err } = await rules({ ...bookInput(), bars, scoring: { ranking } });
    expect({ code, out }).toEqual({ code: 1, out: '' });
    const lines = err.trimEnd().split('\n');
    expect(lines).toHaveLength(2);
    for (const line of lines) expect(line).toContain('mine.json');
    expect(err).toMatch(/no height category "XL"/);
    expect(err).toMatch(/"time" occurs more than once/);
  });

  test.each([
    ['bytes that are no text', Buffer.from([0xff, 0xfe, 0x00]), /not a text file/],
    ['a book of a later version', bookInput({ version: 9 as 1 }), /version 9/],
    ['a review', '{"format":"walkback.review","version":3}', /not a rule book/],
  ])('%s', async (_, content, says) => {
    const { code, err } = await rules(content);
    expect(code).toBe(1);
    expect(err).toMatch(says);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });
});

describe('schema rules', () => {
  // Independent of the library that wrote it: Ajv, JSON Schema draft 2020-12.
  const compiled = async () => {
    const { code, out } = await cli('schema', 'rules');
    expect(code).toBe(0);
    return new Ajv2020({ strict: false, validateFormats: false }).compile(JSON.parse(out) as object);
  };

  test('takes the worked book and the least that is one', async () => {
    const fits = await compiled();
    for (const book of [fci2023, bookInput()])
      expect(fits(plain(book)), JSON.stringify(fits.errors)).toBe(true);
  });

  test('refuses what is none', async () => {
    const fits = await compiled();
    for (const change of [
      { format: 'walkback.review' },
      { version: 2 },
      { id: '' },
      { bars: { value: [{ category: 'L', least: 1, most: 2 }] } },
      { bars: { value: [], source: ours } },
      { colour: 1 },
    ])
      expect(fits(plain({ ...bookInput(), ...change })), JSON.stringify(change)).toBe(false);
  });

  test('another file’s schema is a matter of usage', async () => {
    expect((await cli('schema', 'colours')).code).toBe(2);
  });
});
