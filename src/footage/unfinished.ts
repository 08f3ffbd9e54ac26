import { randomUUID } from 'node:crypto';
import { access, constants, open, readdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { footageWords } from '../words/footage.ts';
import { cancelled, FootageError, systemCode } from './trouble.ts';

/** What was made, and where it lies until it is moved to its place. */
export interface Whole<T> {
  readonly file: string;
  readonly told: T;
}

const unfinished = /^\.walkback-[0-9a-f-]{36}\.unfinished$/;
/** What this process is making at the moment. */
const underWay = new Set<string>();

/**
 * Makes a file beside `out` and moves it there once it is whole and on the disk. Whatever happens nothing else stays,
 * and what stood at `out` before stays until that moment. What our own death leaves behind ends in ".unfinished".
 * @param of the footage that it is made of, for messages
 * @param make is given a free path, for a file or a folder
 * @returns bytes of the file, and what `make` told
 * @throws FootageError: notFound where there is no folder to write in, cancelled; what `make` and the disk throw
 */
export async function makeBeside<T>(
  out: string,
  of: string,
  signal: AbortSignal | undefined,
  make: (free: string) => Promise<Whole<T>>,
): Promise<{ readonly bytes: number; readonly told: T }> {
  if (signal?.aborted) throw cancelled(of);
  const folder = path.dirname(path.resolve(out));
  await access(folder, constants.W_OK).catch((error: unknown) => {
    throw new FootageError('notFound', footageWords.folderMissing(folder), error);
  });
  const free = path.join(folder, `.walkback-${randomUUID()}.unfinished`);
  underWay.add(free);
  try {
    const { file, told } = await make(free);
    const bytes = await onTheDisk(file);
    if (signal?.aborted) throw cancelled(of);
    await rename(file, out);
    return { bytes, told };
  } finally {
    // A leftover that cannot be removed now (the disk went away) is swept at the next start.
    await rm(free, { recursive: true, force: true }).catch(() => undefined);
    underWay.delete(free);
  }
}

/** Removes what was broken off in a folder; what this process is making stays. Resolves to how many were removed. */
export async function sweepUnfinished(folder: string): Promise<number> {
  const names = await readdir(folder).catch((error: unknown) => {
    if (systemCode(error) === 'ENOENT') return [];
    throw error;
  });
  let swept = 0;
  for (const name of names) {
    const leftover = path.join(path.resolve(folder), name);
    if (!unfinished.test(name) || underWay.has(leftover)) continue;
    // Another program may still hold it open (Windows); then the next sweep takes it.
    await rm(leftover, { recursive: true, force: true }).then(
      () => swept++,
      () => undefined,
    );
  }
  return swept;
}

/** Waits until all of a file is on the disk. Resolves to its bytes. */
async function onTheDisk(file: string): Promise<number> {
  const handle = await open(file, 'r+');
  try {
    await handle.sync();
    return (await handle.stat()).size;
  } finally {
    await handle.close();
  }
}
