import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { safeFileName } from '../../../src/host/fileName.ts';
import { makeUploads, sweep } from '../../../src/host/uploads.ts';
import { layoutOf, makeFolders } from '../../../src/library/layout.ts';
import { emptyFolder } from '../host-suite/lines.ts';

let root: { path: string; remove(): Promise<void> };
beforeEach(async () => {
  root = await emptyFolder();
});
afterEach(() => root.remove());

function uploads(options: { largest?: number; most?: number; abandonedAfter?: number } = {}) {
  const clock = { now: 0 };
  let ids = 0;
  const made = makeUploads({
    folder: root.path,
    newId: () => `u${++ids}`,
    clock: () => clock.now,
    largest: 1000,
    ...options,
  });
  return { ...made, clock };
}

test('an upload has a place of its own under its own name, and is there once it arrived whole', async () => {
  const u = uploads();
  const id = await u.begin('the run.mp4', 5);
  const target = u.target(id);
  expect(target).toEqual({ path: join(root.path, id, 'the run.mp4'), bytes: 5 });
  expect(() => u.arrived(id)).toThrow('Send the file again');
  writeFileSync(target?.path ?? '', '12345');
  await u.ended(id, true);
  expect(u.arrived(id)).toEqual({ path: target?.path, name: 'the run.mp4' });
  expect(u.target(id)).toBeNull();
  await u.forget(id);
  expect(existsSync(target?.path ?? '')).toBe(false);
  expect(() => u.arrived(id)).toThrow();
});

test.each([
  ['too few bytes', '123'],
  ['too many bytes', '1234567'],
])('%s: thrown away and told', async (_name, text) => {
  const u = uploads();
  const id = await u.begin('a.mp4', 5);
  writeFileSync(u.target(id)?.path ?? '', text);
  await expect(u.ended(id, true)).rejects.toMatchObject({
    code: 'badInput',
    message: expect.stringContaining('a.mp4'),
  });
  expect(readdirSync(root.path)).toEqual([]);
  expect(() => u.arrived(id)).toThrow();
});

test('one that was given up leaves nothing', async () => {
  const u = uploads();
  const id = await u.begin('a.mp4', 5);
  writeFileSync(u.target(id)?.path ?? '', '12345');
  await u.ended(id, false);
  expect(readdirSync(root.path)).toEqual([]);
  expect(() => u.arrived(id)).toThrow();
});

test('too large, empty, and larger than the disk are refused before a byte comes', async () => {
  const u = uploads({ largest: 2 ** 60 });
  await expect(u.begin('a.mp4', 2 ** 61)).rejects.toMatchObject({ code: 'badInput' });
  await expect(u.begin('a.mp4', 0)).rejects.toMatchObject({ code: 'badInput' });
  await expect(u.begin('a.mp4', 2 ** 55)).rejects.toMatchObject({
    code: 'noSpace',
    message: expect.stringContaining('a.mp4'),
  });
  expect(readdirSync(root.path)).toEqual([]);
});

test('only so many at once; one that was abandoned gives its place free', async () => {
  const u = uploads({ most: 2, abandonedAfter: 1000 });
  const first = await u.begin('a.mp4', 5);
  u.clock.now = 500;
  await u.begin('b.mp4', 5);
  await expect(u.begin('c.mp4', 5)).rejects.toMatchObject({ code: 'conflict' });
  u.clock.now = 1001;
  await u.begin('c.mp4', 5);
  expect(u.target(first)).toBeNull();
});

test('what is not known is null, or told', async () => {
  const u = uploads();
  expect(u.target('nobody')).toBeNull();
  await u.ended('nobody', true);
  expect(() => u.arrived('nobody')).toThrow('Send the file again');
});

test('the sweep takes what is half done, and nothing else', async () => {
  const layout = layoutOf(root.path);
  makeFolders(layout);
  mkdirSync(join(layout.incoming, 'u1'));
  writeFileSync(join(layout.incoming, 'u1', 'a.mp4'), 'x');
  const kept = [
    join(layout.copies, 'c1.mp4'),
    join(layout.reports, 'the part.html'),
    join(layout.pictures, 'p.png'),
  ];
  const gone = [
    join(layout.copies, '.walkback-copy-1.unfinished'),
    join(layout.reports, '.2.part'),
    join(layout.pictures, '.3.part'),
  ];
  for (const file of [...kept, ...gone]) writeFileSync(file, 'x');
  await sweep(layout);
  expect(kept.map((f) => existsSync(f))).toEqual([true, true, true]);
  expect(gone.map((f) => existsSync(f))).toEqual([false, false, false]);
  expect(readdirSync(layout.incoming)).toEqual([]);
});

describe('file names from outside', () => {
  test.each([
    ['../../etc/passwd', '_.._etc_passwd'],
    ['C:\\video\\run.mp4', 'C_video_run.mp4'],
    ['a\u0000b\u202e\n.mp4', 'a_b_.mp4'],
    ['.hidden.mp4', 'hidden.mp4'],
    ['...', 'file'],
    ['con.mp4', '_con.mp4'],
    ['Übung “zwei” 犬.mov', 'Übung “zwei” 犬.mov'],
  ])('%s becomes %s', (name, safe) => {
    expect(safeFileName(name)).toBe(safe);
  });
  test('a long name keeps its ending', () => {
    const safe = safeFileName(`${'犬'.repeat(300)}.MP4`);
    expect(safe.endsWith('.MP4')).toBe(true);
    expect(Buffer.byteLength(safe)).toBeLessThan(255);
  });
});
