import { describe, expect, test } from 'vitest';
import { largestRuleBook, readBook } from '../../../../src/course/rules/readBook.ts';
import { fci2023 } from '../../../../src/course/rules/fci2023.ts';
import { bookInput, ours } from './books.ts';

const read = (value: unknown) => readBook(typeof value === 'string' ? value : JSON.stringify(value));

/** The problems that a book is refused for. */
function refused(value: unknown): readonly string[] {
  const reading = read(value);
  if (reading.ok) throw new Error('the book was taken');
  return reading.problems;
}

const categories = (...list: (readonly [id: string, from: number, below: number | null])[]) =>
  bookInput({
    categories: { value: list.map(([id, from, below]) => ({ id, name: id, from, below })), source: ours },
  });

describe('what is taken', () => {
  test('the worked book, written and read again', () => {
    expect(read(fci2023)).toEqual({ ok: true, book: fci2023 });
  });

  test('the least that is a book, with or without a byte order mark', () => {
    const least = JSON.stringify(bookInput());
    for (const text of [least, `\uFEFF${least}`]) expect(read(text)).toMatchObject({ ok: true });
  });

  test('an entry may leave out how well it is known: its writer states it', () => {
    const reading = read(categories(['all', 0, null]));
    expect(reading.ok && reading.book.categories).toMatchObject({
      status: 'stated',
      source: { text: 'our own sheet', kind: 'own', edition: 'this' },
    });
  });
});

describe('what is no rule book', () => {
  test.each([
    ['nothing', '', /empty/],
    ['half of one', '{"format":"walkback.rules"', /not JSON/],
    ['a list', [], /not a rule book/],
    ['null', null, /not a rule book/],
    ['a review', { format: 'walkback.review', version: 1 }, /not a rule book/],
    ['a book without a version', { format: 'walkback.rules', id: 'x', name: 'x' }, /version/],
    ['version 0', bookInput({ version: 0 as 1 }), /version/],
    ['a version in letters', bookInput({ version: '1' as unknown as 1 }), /version/],
  ])('%s', (_, value, says) => {
    expect(refused(value).join('\n')).toMatch(says);
  });

  test('one of a later version says so, and what to do', () => {
    const reading = read(bookInput({ version: 2 as 1 }));
    expect(reading).toMatchObject({ ok: false, code: 'tooNew' });
    expect(!reading.ok && reading.problems[0]).toMatch(/version 2.*reads up to version 1.*Update/);
  });

  test('a file that is too large is refused before it is read as JSON', () => {
    expect(refused(' '.repeat(largestRuleBook + 1))[0]).toMatch(/too large/);
  });
});

describe('hostile and odd books', () => {
  test('keys that nobody knows, and keys of the prototype', () => {
    for (const key of ['colour', '__proto__', 'constructor', 'prototype', 'toString']) {
      const text = JSON.stringify(bookInput()).replace('{', `{${JSON.stringify(key)}:{"polluted":1},`);
      expect(readBook(text).ok, key).toBe(false);
    }
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  test('names of the prototype as ids mean nothing special', () => {
    const book = categories(['constructor', 0, 35], ['toString', 35, null]);
    expect(read(book).ok).toBe(true);
    expect(refused(categories(['__proto__', 0, null]))[0]).toMatch(/categories\.value\.0\.id/);
    const bars = { value: [{ category: 'valueOf', least: 1, most: 2 }], source: ours };
    expect(refused({ ...book, bars })[0]).toMatch(/no height category "valueOf"/);
  });

  test('a hundred thousand brackets within each other', () => {
    const deep = `${'['.repeat(100_000)}${']'.repeat(100_000)}`;
    for (const key of ['categories', 'about', 'other'])
      expect(readBook(JSON.stringify(bookInput()).replace('{', `{"${key}":${deep},`)).ok, key).toBe(false);
    expect(readBook(deep).ok).toBe(false);
  });

  test('ten thousand entries: one problem, not ten thousand', () => {
    const many = Array.from({ length: 10_000 }, (_, i) => [`c${i}`, i, i + 1] as const);
    const problems = refused(categories(...many));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(/categories\.value/);
  });

  test('many mistakes are told by the first twenty and a count of the others', () => {
    const level = { value: { id: '', name: '' }, source: { text: '' } };
    const problems = refused(bookInput({ scoring: { levels: Array.from({ length: 30 }, () => level) } }));
    expect(problems).toHaveLength(21);
    expect(problems.at(-1)).toMatch(/^And 70 more problems/);
  });

  test('very long strings are refused and cut where they are told', () => {
    const long = 'x'.repeat(100_000);
    for (const odd of [{ name: long }, { about: long }, { [long]: 1 }]) {
      const problems = refused({ ...bookInput(), ...odd });
      expect(problems[0]?.length).toBeLessThan(700);
    }
  });

  test('numbers that JSON cannot carry, negative ones and wrong kinds', () => {
    const bars = (least: string, most: string): string =>
      JSON.stringify(categories(['L', 0, null])).replace(
        /\}$/,
        `,"bars":{"value":[{"category":"L","least":${least},"most":${most}}],"source":{"text":"x"}}}`,
      );
    expect(read(bars('55', '60')).ok).toBe(true);
    for (const [least, most] of [
      ['NaN', '60'],
      ['1e999', '60'],
      ['-1', '60'],
      ['"55"', '60'],
      ['null', '60'],
      ['60', '55'],
    ] as const)
      expect(readBook(bars(least, most)).ok, `${least} to ${most}`).toBe(false);
    expect(refused(bars('60', '55'))[0]).toMatch(/"least" is more than "most"/);
  });

  test('an entry without a source, with an empty one, or of an unknown status', () => {
    const value = [{ id: 'L', name: 'L', from: 0, below: null }];
    for (const entry of [
      { value },
      { value, source: { text: '  ' } },
      { value, source: ours, status: 'sure' },
    ])
      expect(refused({ ...bookInput(), categories: entry })[0]).toMatch(/^categories\./);
  });
});

describe('parts that do not fit together', () => {
  test.each([
    ['a category twice', categories(['S', 0, 35], ['S', 35, null]), /categories: "S" occurs more than once/],
    ['overlapping categories', categories(['S', 0, 36], ['M', 35, null]), /"S" and "M" overlap/],
    ['one inside another, in any order', categories(['M', 35, 40], ['L', 0, null]), /"L" and "M" overlap/],
    ['two without an end', categories(['S', 0, null], ['M', 35, null]), /"S" and "M" overlap/],
    ['a gap', categories(['S', 0, 34], ['M', 35, null]), /from 34 cm to below 35 cm belong neither/],
    ['an empty category', categories(['S', 35, 35]), /no dog fits into "S"/],
    [
      'a bar for a category of no book',
      bookInput({ bars: { value: [{ category: 'S', least: 1, most: 2 }], source: ours } }),
      /bars: there is no height category "S"/,
    ],
    [
      'a time for a level of no book',
      bookInput({
        times: { standard: [{ levels: ['9'], rule: { value: { form: 'stated' }, source: ours } }] },
      }),
      /times\.standard\.0: there is no level "9"/,
    ],
    [
      'a standard time that is a multiple of itself',
      bookInput({
        times: {
          standard: [{ rule: { value: { form: 'timesStandard', usual: 2, least: 1.5 }, source: ours } }],
        },
      }),
      /cannot be a multiple of itself/,
    ],
    [
      'a least above the usual',
      bookInput({
        times: {
          maximum: [{ rule: { value: { form: 'timesStandard', usual: 1, least: 1.5 }, source: ours } }],
        },
      }),
      /times\.maximum\.0: the least is more/,
    ],
    [
      'more obstacles at the least than at the most',
      bookInput({ course: { obstacles: { value: { least: 22, most: 15 }, source: ours } } }),
      /course\.obstacles: the least is more/,
    ],
    [
      'classes of result the wrong way round',
      bookInput({
        scoring: {
          resultClasses: {
            value: [
              { id: 'a', name: 'A', upTo: 10 },
              { id: 'b', name: 'B', upTo: 5 },
            ],
            source: ours,
          },
        },
      }),
      /"b" has to reach further than "a"/,
    ],
    [
      'a ranking key twice',
      bookInput({
        scoring: { ranking: { value: { keys: ['time', 'time'], ties: 'runOff' }, source: ours } },
      }),
      /scoring\.ranking\.keys: "time" occurs more than once/,
    ],
  ])('%s', (_, book, says) => {
    const problems = refused(book);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(says);
  });
});
