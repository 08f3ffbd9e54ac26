import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { contentHash } from '../../../src/footage/contentHash.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'walkback-hash-'));
});
afterAll(() => rm(folder, { recursive: true }));

const written = async (name: string, content: string | Buffer): Promise<string> => {
  const file = path.join(folder, name);
  await writeFile(file, content);
  return file;
};

describe('the content hash', () => {
  // Example values of SHA-256 published with FIPS 180 by NIST: "abc", and a million times "a".
  it('gives the published values', async () => {
    expect(await contentHash(await written('abc', 'abc'))).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
    expect(await contentHash(await written('million', 'a'.repeat(1_000_000)))).toBe(
      'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
    );
  });

  it('tells how far it is', async () => {
    const file = await written('large', Buffer.alloc(5 * 1024 * 1024, 1));
    const told: [number, number][] = [];
    await contentHash(file, { onProgress: (done, of) => told.push([done, of]) });
    expect(told.length).toBeGreaterThan(1);
    expect(told.at(-1)).toEqual([5 * 1024 * 1024, 5 * 1024 * 1024]);
  });

  it('can be stopped', async () => {
    const file = await written('long', Buffer.alloc(32 * 1024 * 1024));
    const stop = new AbortController();
    const hash = contentHash(file, { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(hash).rejects.toMatchObject({ name: 'FootageError', code: 'cancelled' });
    await expect(contentHash(file, { signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'cancelled',
    });
  });

  it('names a file that is not there, and a folder', async () => {
    await expect(contentHash(path.join(folder, 'none'))).rejects.toMatchObject({ code: 'notFound' });
    await expect(contentHash(folder)).rejects.toMatchObject({ code: 'badInput' });
  });
});
