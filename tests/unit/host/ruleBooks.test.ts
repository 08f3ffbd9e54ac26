import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fci2023 } from '../../../src/course/rules/fci2023.ts';
import { largestRuleBook } from '../../../src/course/rules/readBook.ts';
import { ruleBookSummaries, contentOf } from '../../../src/host/ruleBooks.ts';
import type { HostTrouble } from '../../../src/host/contract/link.ts';
import { linkTo } from '../host-suite/lines.ts';
import { book, bookInput, ours } from '../course/rules/books.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

const take = async (t: TestHost, content: string | Buffer, replace = false) => {
  const path = join(t.files, 'theirs.rules.json');
  await writeFile(path, content);
  return linkTo(t.host).call('ruleBook.take', { source: { path }, replace });
};

describe('what is wrong with a rule book is told, and nothing is kept of it', () => {
  const input = bookInput({ course: { obstacles: { value: { least: 3, most: 12 }, source: ours } } });
  const text = JSON.stringify(input);
  test.each<[string, string | Buffer, string, RegExp]>([
    ['an empty file', '', 'badInput', /empty/],
    ['white space', ' \n', 'badInput', /empty/],
    ['text', 'Dear diary', 'badInput', /not JSON/],
    ['cut off in the middle', text.slice(0, 90), 'badInput', /not JSON/],
    ['bytes that are no text', Buffer.from([0x7b, 0xff, 0xfe, 0]), 'badInput', /not a text file/],
    ['a review file', '{"format":"walkback.review","version":5}', 'badInput', /not a rule book/],
    ['a newer version', JSON.stringify({ ...input, version: 2 }), 'tooNew', /Update the program/],
    ['a number that is none', text.replace('12', '1e999'), 'badInput', /course\.obstacles\.value\.most/],
    ['least over most', text.replace('12', '2'), 'badInput', /course\.obstacles/],
    ['an entry without source', text.replace(/,"source":\{[^}]*\}/, ''), 'badInput', /source/],
    ['an id that leads elsewhere', text.replace('"ours"', '"../../x"'), 'badInput', /id/],
    ['a key of the machine', text.replace('"course"', '"__proto__":{"a":1},"x":1,"course"'), 'badInput', /x/],
    ['deep brackets', '['.repeat(100_000), 'badInput', /not JSON|not a rule book/],
    ['far too large', Buffer.alloc(4 * largestRuleBook + 1, 0x20), 'badInput', /too large/],
    ['too many characters', `${text}${' '.repeat(largestRuleBook)}`, 'badInput', /too large/],
  ])('%s', async (_name, content, code, says) => {
    const t = await hosts.fresh();
    const error = await take(t, content).then(
      () => null,
      (e: unknown) => e as HostTrouble,
    );
    expect(error).toMatchObject({ code, message: expect.stringMatching(says) as string });
    expect(error?.message).toContain('theirs.rules.json');
    expect(t.desk.library.ruleBooks.list()).toEqual([]);
    expect(t.faults).toEqual([]);
  });

  test('ten thousand mistakes are told by the first few', async () => {
    const t = await hosts.fresh();
    const levels = Array.from({ length: 10_000 }, () => ({ value: 1, source: ours }));
    const error = await take(t, JSON.stringify({ ...input, scoring: { levels } })).catch((e: unknown) => e);
    expect((error as Error).message.length).toBeLessThan(8000);
  });
});

test('a file outside the folders of a loopback window is refused', async () => {
  const t = await hosts.fresh({ trustedPaths: false, allowedFolders: [] });
  await expect(take(t, JSON.stringify(bookInput()))).rejects.toMatchObject({ code: 'badInput' });
});

test('the content of a book does not hang on how its file was written', () => {
  const shuffled = Object.fromEntries(Object.entries(fci2023).toReversed()) as typeof fci2023;
  expect(contentOf(shuffled)).toBe(contentOf(fci2023));
  expect(contentOf({ ...fci2023, name: 'Another' })).not.toBe(contentOf(fci2023));
});

test('the list tells what a chooser needs, the worked book first', async () => {
  const t = await hosts.fresh();
  t.desk.library.ruleBooks.take(
    book({
      categories: { value: [{ id: 'T', name: 'Tall', from: 0, below: null }], source: ours },
      scoring: { levels: [{ value: { id: 'first', name: 'First steps' }, source: ours, status: 'memory' }] },
    }),
    false,
  );
  const [worked, own] = ruleBookSummaries(t.desk.library);
  expect(worked).toMatchObject({ id: 'fci-2023', worked: true });
  expect(worked?.fromMemory).toBeGreaterThan(0);
  expect(own).toMatchObject({
    worked: false,
    entries: 2,
    fromMemory: 1,
    categories: [{ id: 'T', name: 'Tall' }],
    levels: [{ id: 'first', name: 'First steps' }],
  });
});

test('which book a course is built by travels with the review file, name and content too', async () => {
  const t = await hosts.fresh();
  const host = linkTo(t.host);
  const taken = await take(t, JSON.stringify(bookInput()));
  const { reviewId } = await host.call('review.create', { title: 'Built by ours', obstacles: 2 });
  const state = t.desk.library.reviews.whole(reviewId).state;
  const body = {
    ...state.course,
    ruleBook: 'ours',
    ruleBookChosen: { name: taken.book.name, content: taken.book.content ?? '' },
    timing: { discipline: 'jumping' as const, judgesSpeed: 4.25, statedMaximum: 80.5 },
  };
  await host.call('review.apply', {
    ...{ reviewId, actId: 'a1', label: 'Choose a rule book' },
    changes: [{ kind: 'course', id: reviewId, body }],
  });
  const { json } = await host.call('review.document', { reviewId });
  const other = await hosts.fresh();
  const path = join(other.files, 'a.walkback.json');
  await writeFile(path, json);
  expect(await other.run('review.import', { source: { path } })).toMatchObject({ state: 'done' });
  expect(other.desk.library.reviews.whole(reviewId).state.course).toEqual(body);
});
