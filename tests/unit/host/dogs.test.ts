import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { HostTrouble } from '../../../src/host/contract/link.ts';
import { Dog } from '../../../src/line/dog.ts';
import { dogFileOf, largestDogFile } from '../../../src/line/dogFile.ts';
import { linkTo } from '../host-suite/lines.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();
const fen = Dog.parse({ id: 'd1', name: 'Fen', runner: { landing: 2.2 } });
const moss = Dog.parse({ id: 'd2', name: 'Moss' });

const take = async (t: TestHost, content: string | Buffer, replace = false) => {
  const path = join(t.files, 'theirs.dog.json');
  await writeFile(path, content);
  return linkTo(t.host).call('dog.take', { source: { path }, replace });
};

describe('what is wrong with the file of a dog is told, and nothing is kept of it', () => {
  const text = dogFileOf(fen);
  const deep = '['.repeat(100_000);
  test.each<[string, string | Buffer, string, RegExp]>([
    ['an empty file', '', 'badInput', /empty/],
    ['white space', ' \n', 'badInput', /empty/],
    ['text', 'Dear diary', 'badInput', /not JSON/],
    ['cut off in the middle', text.slice(0, 60), 'badInput', /not JSON/],
    ['bytes that are no text', Buffer.from([0x7b, 0xff, 0xfe, 0]), 'badInput', /not a text file/],
    ['a rule book', '{"format":"walkback.rules","version":1}', 'badInput', /not the file of a dog/],
    ['nothing', 'null', 'badInput', /not the file of a dog/],
    ['a newer version', text.replace('"version": 1', '"version": 2'), 'tooNew', /Update the program/],
    ['a version that is none', text.replace('"version": 1', '"version": "1"'), 'badInput', /version/],
    ['a figure without end', text.replace('2.2', '1e999'), 'badInput', /dog\.runner\.landing/],
    ['a figure in another unit', text.replace('2.2', '220'), 'badInput', /dog\.runner\.landing/],
    ['no name', text.replace('"Fen"', '" "'), 'badInput', /dog\.name/],
    ['a key of the machine', text.replace('"landing"', '"__proto__":{},"x":1,"landing"'), 'badInput', /x/],
    ['deep brackets', deep, 'badInput', /not JSON|not the file of a dog/],
    ['far too large', Buffer.alloc(4 * largestDogFile + 1, 0x20), 'badInput', /too large/],
    ['too many characters', `${text}${' '.repeat(largestDogFile)}`, 'badInput', /too large/],
  ])('%s', async (_name, content, code, says) => {
    const t = await hosts.fresh();
    const error = await take(t, content).then(
      () => null,
      (e: unknown) => e as HostTrouble,
    );
    expect(error).toMatchObject({ code, message: expect.stringMatching(says) as string });
    expect(error?.message).toContain('theirs.dog.json');
    expect(t.desk.library.dogs.list()).toEqual([]);
    expect(t.faults).toEqual([]);
  });

  test('ten thousand mistakes are told by the first few', async () => {
    const t = await hosts.fresh();
    const skills = { neverMet: Array.from({ length: 10_000 }, () => 'wings') };
    const wrong = JSON.stringify({ format: 'walkback.dog', version: 1, dog: { id: 'd', name: 'F', skills } });
    const error = await take(t, wrong).catch((e: unknown) => e);
    expect((error as Error).message.length).toBeLessThan(8000);
  });
});

test('a file that makes two dogs one is refused, and both stay as they are', async () => {
  const t = await hosts.fresh();
  t.desk.library.dogs.save(fen, null);
  t.desk.library.dogs.save(moss, null);
  const both = dogFileOf({ ...fen, alsoCalled: ['moss'] });
  await expect(take(t, both, true)).rejects.toMatchObject({ code: 'conflict' });
  expect(t.desk.library.dogs.list()).toMatchObject([{ body: fen }, { body: moss }]);
});

test('she is found by a name of before, and keeps the id and the names that she has here', async () => {
  const t = await hosts.fresh();
  const here = { ...moss, alsoCalled: ['Fen'] };
  t.desk.library.dogs.save(here, null);
  expect(await take(t, dogFileOf(fen))).toEqual({
    ...{ was: 'other', act: null, there: 'Moss' },
    dog: { ...fen, id: 'd2', alsoCalled: ['Moss'] },
  });
  expect(t.desk.library.dogs.read('d2')).toEqual(here);
  const { was, act } = await take(t, dogFileOf(fen), true);
  expect(was).toBe('replaced');
  expect(t.desk.library.dogs.read('d2')).toEqual({ ...fen, id: 'd2', alsoCalled: ['Moss'] });
  expect(await take(t, dogFileOf(fen))).toMatchObject({ was: 'same', act: null });
  t.desk.library.dogs.takeBack(act ?? 0);
  expect(t.desk.library.dogs.read('d2')).toEqual(here);
});

test('a file is named after the dog and stays in the folder; what is not there is not written', async () => {
  const t = await hosts.fresh();
  const name = '../'.repeat(20) + 'Fen'.repeat(6);
  t.desk.library.dogs.save({ ...fen, name }, null);
  const file = await linkTo(t.host).call('dog.write', { id: 'd1' });
  expect(file.path).toBe(join(t.desk.library.layout.reports, file.name));
  expect(file.name).toMatch(/^[^/\\]+\.dog\.json$/);
  await expect(linkTo(t.host).call('dog.write', { id: 'nobody' })).rejects.toMatchObject({
    code: 'notFound',
  });
});

test('a file outside the folders of a loopback window is refused', async () => {
  const t = await hosts.fresh({ trustedPaths: false, allowedFolders: [] });
  await expect(take(t, dogFileOf(fen))).rejects.toMatchObject({ code: 'badInput' });
});
