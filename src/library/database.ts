import Sqlite, { type Database } from 'better-sqlite3';
import { existsSync, linkSync, renameSync, rmSync } from 'node:fs';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { applicationId, checkHeader, leftOpen } from './format.ts';
import type { Layout } from './layout.ts';
import { migrate, newestVersion, type Migration } from './migrations.ts';
import { LibraryTrouble } from './trouble.ts';

/**
 * Opens the database of a library, made new where there is none, and keeps it to this process: a second opener
 * is refused by SQLite's own lock, which the system drops when the process ends, however it ends.
 *
 * Write-ahead log, `synchronous=FULL`: an act that was answered is on the disk.
 */
export function openDatabase(layout: Layout, list: readonly Migration[]): Database {
  const newest = newestVersion(list);
  if (!existsSync(layout.database)) make(layout.database, list);
  const version = checkHeader(layout.database, layout.folder, newest);
  const cutOff = leftOpen(layout.database);

  const db = new Sqlite(layout.database, { timeout: 1500, fileMustExist: true });
  try {
    // Before the first read: then no shared-memory file is used, and the lock is held until the end.
    db.pragma('locking_mode = EXCLUSIVE');
    db.exec('BEGIN IMMEDIATE; COMMIT');
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL');
    db.pragma('foreign_keys = ON');
    if (cutOff) {
      const found = db.pragma('quick_check(1)', { simple: true });
      if (found !== 'ok') {
        throw new LibraryTrouble('damaged', libraryTroubles.damagedInside(layout.folder, String(found)));
      }
    }
    const inside = Number(db.pragma('user_version', { simple: true }));
    if (inside > newest) {
      throw new LibraryTrouble('tooNew', libraryTroubles.tooNew(layout.folder, inside, newest));
    }
    if (version < newest) {
      keepCopy(db, `${layout.database}.format-${version}`);
      migrate(db, list);
      // The version must stand in the file itself, where checkHeader of an older program reads it.
      db.pragma('wal_checkpoint(TRUNCATE)');
    }
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** Made under another name and moved into place: a library that is there at all is whole. */
function make(database: string, list: readonly Migration[]): void {
  const making = `${database}.making-${process.pid}`;
  rmSync(making, { force: true });
  try {
    const db = new Sqlite(making);
    try {
      db.pragma(`application_id = ${applicationId}`);
      db.pragma('synchronous = FULL');
      migrate(db, list);
    } finally {
      db.close();
    }
    moveUnlessThere(making, database);
  } finally {
    rmSync(making, { force: true });
    rmSync(`${making}-journal`, { force: true });
  }
}

/** Of two programs that make the same library at once, the second must not replace what the first has made. */
function moveUnlessThere(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    // There already, or a file system without links.
    if (!existsSync(to)) renameSync(from, to);
  }
}

/** The library as it was before its format is changed, so that the step back stays open. */
function keepCopy(db: Database, path: string): void {
  rmSync(path, { force: true });
  db.prepare('VACUUM INTO ?').run(path);
}
