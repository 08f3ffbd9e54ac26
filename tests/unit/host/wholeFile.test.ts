import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { writeWhole, writingTrouble } from '../../../src/host/wholeFile.ts';

let place = '';
beforeEach(async () => {
  place = await mkdtemp(join(tmpdir(), 'walkback-whole-'));
});
afterEach(() => rm(place, { recursive: true, force: true }));

describe('a file written whole', () => {
  test('makes its folder, replaces what was there, leaves nothing else', async () => {
    const path = join(place, 'a', 'b', 'page.html');
    expect(await writeWhole(path, 'é')).toBe(2);
    expect(await writeWhole(path, 'two')).toBe(3);
    expect(await readFile(path, 'utf8')).toBe('two');
    expect(await readdir(join(place, 'a', 'b'))).toEqual(['page.html']);
  });

  test('that cannot take its place leaves nothing, and what was there stays', async () => {
    const path = join(place, 'page.html');
    await mkdir(join(path, 'full'), { recursive: true });
    await expect(writeWhole(path, 'x')).rejects.toMatchObject({
      code: 'badInput',
      message: expect.stringContaining(path) as string,
    });
    expect(await readdir(place)).toEqual(['page.html']);
    await writeFile(join(place, 'file'), '');
    await expect(writeWhole(join(place, 'file', 'page.html'), 'x')).rejects.toMatchObject({
      code: 'badInput',
    });
  });

  test.each([
    ['ENOSPC', 'noSpace', /no room left/],
    ['EDQUOT', 'noSpace', /no room left/],
    ['EFBIG', 'noSpace', /no file of that size/],
    ['EACCES', 'unreadable', /may not be written to/],
    ['EROFS', 'unreadable', /may not be written to/],
    ['ENOTDIR', 'badInput', /is a file, not a folder/],
    ['ENAMETOOLONG', 'badInput', /too long/],
    ['EIO', 'unreadable', /was not written: broken/],
  ])('%s is told as %s, with what to do', (code, kind, says) => {
    const told = writingTrouble('/x/page.html', Object.assign(new Error('broken'), { code }));
    expect(told.code).toBe(kind);
    expect(told.message).toMatch(says);
  });
});
