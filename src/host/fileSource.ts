import { open, rename, copyFile, rm } from 'node:fs/promises';
import { constants } from 'node:fs';
import { basename, extname } from 'node:path';
import { hostTroubles } from '../words/hostTroubles.ts';
import { shownKinds } from './fileKinds.ts';
import type { FileSource } from './contract/calls.ts';
import type { Desk } from './desk.ts';
import { trouble } from './troubles.ts';

/** A file that was handed in, ready to be read. */
export interface Given {
  readonly path: string;
  /** The name that its owner knows it by. */
  readonly name: string;
  readonly bytes: number;
  /** When it was last changed, milliseconds since 1970. */
  readonly fileTime: number;
  /** The upload it came in, where it did; null where it lies on the disk of its owner and stays there. */
  readonly uploadId: string | null;
}

/** The name by which a source is told to the reader, known before it is looked at. */
export function nameOf(desk: Desk, source: FileSource): string {
  return 'path' in source ? basename(source.path) : desk.uploads.arrived(source.uploadId).name;
}

/**
 * Finds the file of a source and sees that it can be read.
 * Throws `badInput` (not allowed, no plain file, empty), `notFound`, `unreadable`.
 */
export async function given(desk: Desk, source: FileSource): Promise<Given> {
  if ('uploadId' in source) {
    const { path, name } = desk.uploads.arrived(source.uploadId);
    return { path, name, ...(await readable(path, name)), uploadId: source.uploadId };
  }
  const path = await desk.allowed.resolve(source.path);
  const name = basename(source.path);
  if (!desk.allowed.trustsPaths && !shownKinds.has(extname(path).toLowerCase())) {
    throw trouble('badInput', hostTroubles.outsideAllowed(source.path));
  }
  // Opening the database here, even to read, would drop SQLite's lock on it when it is closed again.
  if (path.startsWith(desk.library.layout.database)) throw trouble('badInput', hostTroubles.ownDatabase);
  return { path, name, ...(await readable(path, source.path)), uploadId: null };
}

async function readable(path: string, told: string): Promise<Pick<Given, 'bytes' | 'fileTime'>> {
  // Without waiting: a named pipe would hold up the host for ever.
  const file = await open(path, constants.O_RDONLY | constants.O_NONBLOCK).catch((error: unknown) => {
    const gone = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    throw gone
      ? trouble('notFound', hostTroubles.notThere(told))
      : trouble('unreadable', hostTroubles.unreadableFile(told));
  });
  try {
    const found = await file.stat();
    if (!found.isFile()) throw trouble('badInput', hostTroubles.notAFile(told));
    if (found.size === 0) throw trouble('badInput', hostTroubles.emptyFile(basename(told)));
    return { bytes: found.size, fileTime: found.mtimeMs };
  } finally {
    await file.close();
  }
}

/** Moves an upload to where it is to stay, also across disks. */
export async function moveInto(from: string, to: string): Promise<void> {
  try {
    await rename(from, to);
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EXDEV')) throw error;
    const making = `${to}.part`;
    await copyFile(from, making);
    await rename(making, to);
    await rm(from, { force: true });
  }
}
