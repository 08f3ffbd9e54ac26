import { readdir, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { videoKinds } from '../../src/host/fileKinds.ts';
import { contentHash } from '../../src/footage/contentHash.ts';
import type { DocumentFootage } from '../../src/review/document.ts';

/** Where the footage of a review file lies, or that it is not at hand. */
export interface Beside {
  readonly footage: DocumentFootage;
  readonly path: string | null;
  /** A file that lies where the footage should, but has other content. */
  readonly other: string | null;
}

/**
 * Finds a review file's footage: first where the file says, then under its names beside the review file, then
 * any video there of the same size. Only a file with the same content counts.
 */
export async function footageBeside(
  reviewPath: string,
  footage: readonly DocumentFootage[],
  signal: AbortSignal,
): Promise<Beside[]> {
  const folder = dirname(reviewPath);
  const found: Beside[] = [];
  for (const f of footage) found.push(await find(folder, f, signal));
  return found;
}

async function find(folder: string, footage: DocumentFootage, signal: AbortSignal): Promise<Beside> {
  const { path: told, bytes, sha256 } = footage.clip;
  const named = [
    ...(told === undefined ? [] : [resolve(folder, told), join(folder, ownName(told))]),
    join(folder, ownName(footage.name)),
  ];
  const tried = new Set<string>();
  let other: string | null = null;
  for (const path of [...named, ...(await videosIn(folder))]) {
    if (tried.has(path)) continue;
    tried.add(path);
    const size = await sizeOf(path);
    if (size === null) continue;
    if (size === bytes && (await contentHash(path, { signal })) === sha256) {
      return { footage, path, other: null };
    }
    if (named.includes(path)) other ??= path;
  }
  return { footage, path: null, other };
}

/** The last part of a path in either system's writing. */
const ownName = (path: string): string => basename(path.replaceAll('\\', '/'));

async function sizeOf(path: string): Promise<number | null> {
  const there = await stat(path).catch(() => null);
  return there?.isFile() ? there.size : null;
}

async function videosIn(folder: string): Promise<string[]> {
  const names = await readdir(folder).catch(() => []);
  return names
    .filter((name) => videoKinds.has(name.slice(name.lastIndexOf('.')).toLowerCase()))
    .sort()
    .map((name) => join(folder, name));
}
