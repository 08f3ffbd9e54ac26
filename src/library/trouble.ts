import { libraryTroubles } from '../words/libraryTroubles.ts';

/** What went wrong in the store, as a program tells it apart. A subset of the host's codes. */
export type LibraryCode =
  'badInput' | 'notFound' | 'conflict' | 'noSpace' | 'unreadable' | 'damaged' | 'tooNew' | 'internal';

/** An error of the library. The message is a sentence for the reader: what happened, where, what to do. */
export class LibraryTrouble extends Error {
  readonly code: LibraryCode;
  constructor(code: LibraryCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'LibraryTrouble';
    this.code = code;
  }
}

/**
 * Runs `work` and turns what SQLite or the file system throws into a LibraryTrouble that names the library.
 * Result codes: https://www.sqlite.org/rescode.html
 */
export function telling<T>(folder: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw asLibraryTrouble(folder, error);
  }
}

/** The reader's form of an error that came up while the library in `folder` was used. */
export function asLibraryTrouble(folder: string, error: unknown): unknown {
  if (error instanceof LibraryTrouble) return error;
  const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
  const told = (kind: LibraryCode, message: string) => new LibraryTrouble(kind, message, { cause: error });
  if (code === 'SQLITE_FULL' || code === 'ENOSPC' || code === 'EDQUOT') {
    return told('noSpace', libraryTroubles.noSpace(folder));
  }
  if (code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB') {
    return told('damaged', libraryTroubles.damaged(folder));
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return told('conflict', libraryTroubles.openElsewhere(folder));
  }
  if (
    code.startsWith('SQLITE_IOERR') ||
    code.startsWith('SQLITE_READONLY') ||
    code.startsWith('SQLITE_CANTOPEN') ||
    code === 'EACCES' ||
    code === 'EPERM' ||
    code === 'EROFS' ||
    code === 'EIO' ||
    code === 'ENOTDIR' ||
    code === 'EEXIST'
  ) {
    return told('unreadable', libraryTroubles.unusable(folder, code));
  }
  return error;
}
