import { randomUUID } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { writingTroubles as words } from '../words/writing.ts';
import { makeFolder } from './makeFolder.ts';
import { trouble } from './troubles.ts';
import type { HostTrouble } from './contract/link.ts';

/**
 * Writes a file so that it is there whole or not at all: under a temporary name in the same folder, flushed to
 * the disk, then renamed. What was there before stays until that moment. Makes the folder where there is none.
 * @returns bytes written
 * @throws HostTrouble that names the path and says what to do
 */
export async function writeWhole(path: string, content: string | Uint8Array): Promise<number> {
  const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
  const making = join(dirname(path), `.${randomUUID()}.part`);
  try {
    await makeFolder(dirname(path));
    const file = await open(making, 'wx');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(making, path);
  } catch (error) {
    throw writingTrouble(path, error);
  } finally {
    // Where even this fails there is nothing left to remove, and the error above is the one to tell.
    await rm(making, { force: true }).catch(() => undefined);
  }
  return bytes.length;
}

/** The reader's form of an error that came up while `path` was written. */
export function writingTrouble(path: string, error: unknown): HostTrouble {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const told = (kind: 'noSpace' | 'unreadable' | 'badInput', message: string): HostTrouble =>
    Object.assign(trouble(kind, message), { cause: error });
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return told('noSpace', words.noSpace(path));
    case 'EFBIG':
      return told('noSpace', words.tooLarge(path));
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return told('unreadable', words.notAllowed(path));
    case 'ENOENT':
      return told('badInput', words.noFolderThere(dirname(path)));
    case 'ENOTDIR':
      return told('badInput', words.notAFolder(dirname(path)));
    case 'EISDIR':
    case 'ENOTEMPTY':
      return told('badInput', words.isFolder(path));
    case 'ENAMETOOLONG':
      return told('badInput', words.nameTooLong(basename(path)));
    default:
      return told('unreadable', words.other(path, error instanceof Error ? error.message : String(error)));
  }
}
