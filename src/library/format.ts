import { closeSync, existsSync, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { LibraryTrouble } from './trouble.ts';

/** Marks a SQLite file as a Walkback library: the letters "WBKL". */
export const applicationId = 0x57_42_4b_4c;

/**
 * Looks at the first 100 bytes of a database file without SQLite, so that a file that is not ours or is newer than
 * this program is left exactly as it is. Field offsets: https://www.sqlite.org/fileformat2.html#the_database_header
 *
 * Returns the format version. Throws LibraryTrouble: `damaged` (no SQLite file, cut short), `badInput` (another
 * program's), `tooNew`.
 */
export function checkHeader(database: string, folder: string, newest: number): number {
  const header = Buffer.alloc(100);
  const file = openSync(database, 'r');
  let read: number;
  let bytes: number;
  try {
    read = readSync(file, header, 0, 100, 0);
    bytes = fstatSync(file).size;
  } finally {
    closeSync(file);
  }
  if (read < 100 || header.toString('latin1', 0, 16) !== 'SQLite format 3\0') {
    throw new LibraryTrouble('damaged', libraryTroubles.notALibrary(database));
  }
  const version = header.readUInt32BE(60);
  if (header.readUInt32BE(68) !== applicationId) {
    throw new LibraryTrouble('badInput', libraryTroubles.foreign(database));
  }
  if (version > newest) {
    throw new LibraryTrouble('tooNew', libraryTroubles.tooNew(folder, version, newest));
  }
  const pageSize = header.readUInt16BE(16) === 1 ? 65_536 : header.readUInt16BE(16);
  // With a write-ahead log beside it the file may be short and still be whole: SQLite completes it on opening.
  if (!leftOpen(database) && bytes < pageSize * header.readUInt32BE(28)) {
    throw new LibraryTrouble('damaged', libraryTroubles.cutShort(database));
  }
  return version;
}

/** True where the last program that had the library open ended without closing it. */
export function leftOpen(database: string): boolean {
  const log = `${database}-wal`;
  return existsSync(log) && statSync(log).size > 0;
}
