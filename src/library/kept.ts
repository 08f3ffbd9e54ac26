import type { Database } from 'better-sqlite3';
import { isDeepStrictEqual } from 'node:util';
import type { z } from 'zod';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { libraryActs, type LibraryActKind, type LibraryThing } from './libraryActs.ts';
import { asStored, firstProblem, readBody } from './stored.ts';
import { LibraryTrouble } from './trouble.ts';

/** One of the things that a library keeps whole. `body` is null where what is stored is damaged. */
export interface KeptBody<T> {
  readonly id: string;
  readonly name: string;
  readonly revision: number;
  readonly body: T | null;
}

/** What a kind of things is: where they lie, what they must be, and how they are spoken of. */
export interface Keeping<T> {
  readonly table: 'rule_book' | 'dog';
  readonly kind: LibraryThing;
  readonly schema: z.ZodType<T>;
  readonly most: number;
  /** Throws LibraryTrouble where this one cannot stand beside those that are there. */
  readonly beside?: (body: T, others: readonly KeptBody<T>[]) => void;
  readonly words: {
    readonly unknown: string;
    readonly where: (name: string, id: string) => string;
    readonly cannotBeKept: (problem: string) => string;
    readonly full: (most: number) => string;
    readonly changedSince: string;
  };
}

/** Things kept whole, each under an id and a name, with every act on them in the library's log. */
export interface KeptThings<T> {
  list(): KeptBody<T>[];
  /** Throws `notFound`, or `damaged` with its name. */
  read(id: string): T;
  /** Its revision, and its body as it is stored, readable or not; null where there is none. */
  stored(id: string): { readonly revision: number; readonly body: unknown } | null;
  /** The value as it will be read back. Throws `badInput`. */
  checked(body: unknown): T;
  /** Writes a checked body, or removes (null); returns the act. To be called inside a transaction. */
  write(id: string, after: T | null, kind: LibraryActKind): number;
  remove(id: string): number;
  /** Undoes an act, as long as what it left still stands so. Throws `conflict` where it does not. */
  takeBack(act: number): number;
}

interface Row {
  id: string;
  name: string;
  revision: number;
  removed: number;
  body: string;
}

/**
 * An act and its effect are one transaction. What is removed leaves its row, so that libraries can be merged.
 * Every function throws LibraryTrouble; whatever throws has changed nothing.
 */
export function keptThings<T extends { readonly id: string; readonly name: string }>(
  db: Database,
  author: string,
  clock: () => number,
  newId: () => string,
  { table, kind: thing, schema, most, beside, words }: Keeping<T>,
): KeptThings<T> {
  const log = libraryActs(db, author, clock, newId);
  const columns = 'id, name, revision, removed, body';
  const living = db.prepare<[], Row>(`SELECT ${columns} FROM ${table} WHERE removed = 0 ORDER BY ordinal`);
  const byId = db.prepare<[string], Row>(`SELECT ${columns} FROM ${table} WHERE id = ?`);
  const count = db.prepare<[], number>(`SELECT count(*) FROM ${table} WHERE removed = 0`).pluck();
  const put = db.prepare(
    `INSERT INTO ${table} (id, name, author, revision, removed, body) VALUES (?, ?, ?, 1, 0, ?)
     ON CONFLICT (id) DO UPDATE SET name = excluded.name, author = excluded.author,
       revision = revision + 1, removed = 0, body = excluded.body`,
  );
  const setRemoved = db.prepare(
    `UPDATE ${table} SET removed = 1, author = ?, revision = revision + 1 WHERE id = ?`,
  );
  /** Bodies that were read already, by id; one of a megabyte is not checked anew for every look at the list. */
  const known = new Map<string, KeptBody<T>>();

  const there = (id: string): Row | null => {
    const row = byId.get(id);
    return row?.removed === 0 ? row : null;
  };
  const existing = (id: string): Row => {
    const row = there(id);
    if (!row) throw new LibraryTrouble('notFound', words.unknown);
    return row;
  };
  const bodyOf = (row: Row): T => readBody(schema, row.body, words.where(row.name, row.id));
  /** What the log keeps: the stored body, or its text where that cannot be read any more. */
  const logged = (row: Row | null): unknown => {
    if (!row) return null;
    try {
      return JSON.parse(row.body);
    } catch {
      return row.body;
    }
  };
  const kept = (row: Row): KeptBody<T> => {
    const before = known.get(row.id);
    if (before?.revision === row.revision) return before;
    let body: T | null = null;
    try {
      body = bodyOf(row);
    } catch (error) {
      // What cannot be read stays in the list, under the name it had: looking into it says what is wrong.
      if (!(error instanceof LibraryTrouble)) throw error;
    }
    const made = { id: row.id, name: row.name, revision: row.revision, body };
    known.set(row.id, made);
    return made;
  };
  const list = (): KeptBody<T>[] => living.all().map(kept);
  const checked = (body: unknown): T => {
    const parsed = schema.safeParse(body);
    if (parsed.success) return asStored(parsed.data);
    throw new LibraryTrouble('badInput', words.cannotBeKept(firstProblem(parsed.error)));
  };
  const writeFor = (id: string, after: T | null, kind: LibraryActKind, target: number | null): number => {
    const before = there(id);
    if (after) {
      beside?.(
        after,
        list().filter((other) => other.id !== id),
      );
      put.run(id, after.name, author, JSON.stringify(after));
    } else setRemoved.run(author, id);
    if (!before && (count.get() ?? 0) > most) throw new LibraryTrouble('badInput', words.full(most));
    return log.append({ kind, target, effects: [{ kind: thing, id, before: logged(before), after }] });
  };

  return {
    list,
    checked,
    read: (id) => bodyOf(existing(id)),
    stored(id) {
      const row = there(id);
      return row && { revision: row.revision, body: logged(row) };
    },
    write: (id, after, kind) => writeFor(id, after, kind, null),
    remove: (id) =>
      db
        .transaction((): number => {
          existing(id);
          return writeFor(id, null, 'remove', null);
        })
        .immediate(),
    takeBack: (number) =>
      db
        .transaction((): number => {
          const act = log.read(number);
          const effects = act?.effects.filter((effect) => effect.kind === thing) ?? [];
          if (effects.length === 0) throw new LibraryTrouble('notFound', libraryTroubles.unknownLibraryAct);
          let last = number;
          for (const { id, before, after } of effects.toReversed()) {
            if (!isDeepStrictEqual(logged(there(id)), after)) {
              throw new LibraryTrouble('conflict', words.changedSince);
            }
            last = writeFor(id, before === null ? null : checked(before), 'takeBack', number);
          }
          return last;
        })
        .immediate(),
  };
}
