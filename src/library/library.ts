import type { Database } from 'better-sqlite3';
import { existsSync, mkdirSync, realpathSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { resolve } from 'node:path';
import { z } from 'zod';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { clipsOf, type Clips } from './clips.ts';
import { openDatabase } from './database.ts';
import { dogsOf, type Dogs } from './dogs.ts';
import { layoutOf, makeFolders, type Layout } from './layout.ts';
import { migrations, type Migration } from './migrations.ts';
import { notesOf, type Notes } from './notes.ts';
import { picturesOf, type Pictures } from './pictures.ts';
import { reviewsOf, type Reviews } from './reviews.ts';
import { ruleBooksOf, type RuleBooks } from './ruleBooks.ts';
import { asLibraryTrouble, LibraryTrouble, telling } from './trouble.ts';

/** A library: one folder with a database and the files that belong to it. Open in one place at a time. */
export interface Library {
  readonly layout: Layout;
  /** True where this opening made it. */
  readonly fresh: boolean;
  readonly reviews: Reviews;
  readonly clips: Clips;
  readonly pictures: Pictures;
  readonly ruleBooks: RuleBooks;
  readonly dogs: Dogs;
  readonly notes: Notes;
  /** Sets how large the database may grow, in bytes; for tests of a full disk. */
  limit(bytes: number): void;
  close(): void;
}

export interface LibraryOptions {
  readonly clock?: () => number;
  readonly newId?: () => string;
  /** Other steps of the format; for tests. */
  readonly migrations?: readonly Migration[];
}

/**
 * Libraries open in this process. SQLite's lock belongs to the process, and opening the file a second time here
 * would even drop it when that second handle closes (https://www.sqlite.org/howtocorrupt.html, section 2.2).
 */
const open = new Set<string>();

/**
 * Opens the library in `folder`, made new where there is none.
 * Throws LibraryTrouble: `conflict` (open elsewhere), `tooNew`, `damaged`, `badInput` (another program's file),
 * `unreadable`, `noSpace`. On `tooNew`, `damaged` and `badInput` nothing in the folder is touched.
 */
export function openLibrary(folder: string, options: LibraryOptions = {}): Library {
  const newId = options.newId ?? randomUUID;
  const asked = resolve(folder);
  return telling(asked, () => {
    mkdirSync(asked, { recursive: true });
    const layout = layoutOf(realpathSync(asked));
    if (open.has(layout.folder)) {
      throw new LibraryTrouble('conflict', libraryTroubles.openElsewhere(layout.folder));
    }
    const fresh = !existsSync(layout.database);
    const db = openDatabase(layout, options.migrations ?? migrations);
    try {
      makeFolders(layout);
      const notes = notesOf(db);
      const author = authorOf(notes, newId);
      const library: Library = {
        layout,
        fresh,
        reviews: guarded(layout, reviewsOf(db, author, options.clock ?? Date.now, newId)),
        clips: guarded(layout, clipsOf(db, author)),
        pictures: guarded(layout, picturesOf(db, author)),
        ruleBooks: guarded(layout, ruleBooksOf(db, author, options.clock ?? Date.now, newId)),
        dogs: guarded(layout, dogsOf(db, author, options.clock ?? Date.now, newId)),
        notes: guarded(layout, notes),
        limit: (bytes) => limitSize(db, bytes),
        close() {
          db.close();
          open.delete(layout.folder);
        },
      };
      open.add(layout.folder);
      return library;
    } catch (error) {
      db.close();
      throw error;
    }
  });
}

/** Whoever writes in this library, as an id: acts of several people can be told apart when libraries are merged. */
function authorOf(notes: Notes, newId: () => string): string {
  const known = notes.read('author', 1, z.strictObject({ id: z.string() }));
  if (known) return known.id;
  const id = newId();
  notes.write('author', 1, { id });
  return id;
}

function limitSize(db: Database, bytes: number): void {
  const pageSize = Number(db.pragma('page_size', { simple: true }));
  db.pragma(`max_page_count = ${Math.max(1, Math.floor(bytes / pageSize))}`);
}

/** The same functions, with every error of SQLite told in words that name the library. */
function guarded<T extends object>(layout: Layout, room: T): T {
  const entries = Object.entries(room).map(([name, value]) => [
    name,
    typeof value === 'function'
      ? (...args: unknown[]): unknown => {
          try {
            return (value as (...args: unknown[]) => unknown)(...args);
          } catch (error) {
            throw asLibraryTrouble(layout.folder, error);
          }
        }
      : (value as unknown),
  ]);
  return Object.fromEntries(entries) as T;
}
