import type { Database } from 'better-sqlite3';
import { isDeepStrictEqual } from 'node:util';
import { RuleBook } from '../course/rules/book.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { libraryActs, type LibraryActKind } from './libraryActs.ts';
import { asStored, firstProblem, readBody } from './stored.ts';
import { LibraryTrouble } from './trouble.ts';

/** Most rule books that a library holds, so that the list stays one. */
export const mostRuleBooks = 100;

/** A rule book as it stands in the library. `book` is null where what is stored is damaged. */
export interface KeptRuleBook {
  readonly id: string;
  readonly name: string;
  readonly book: RuleBook | null;
}

/** How taking a book in ended. `other`: one of this id with other entries is there; nothing was changed. */
export type RuleBookTaken =
  | { readonly was: 'new' | 'replaced'; readonly act: number }
  | { readonly was: 'same' | 'other'; readonly act: null };

/** The rule books that users wrote. Every function throws LibraryTrouble; whatever throws has changed nothing. */
export interface RuleBooks {
  list(): KeptRuleBook[];
  /** Throws `notFound`, or `damaged` with the book's name. */
  read(id: string): RuleBook;
  /** Takes a book in under its own id; one that differs gives way only where `replace` is set. */
  take(book: RuleBook, replace: boolean): RuleBookTaken;
  /** Returns the act, which can be taken back. */
  remove(id: string): number;
  /** Undoes an act on a book, as long as the book still is as that act left it. Throws `conflict` where it is not. */
  takeBack(act: number): void;
}

interface Row {
  id: string;
  name: string;
  removed: number;
  revision: number;
  body: string;
}

/** An act and its effect are one transaction. A removed book leaves its row, so that libraries can be merged. */
export function ruleBooksOf(
  db: Database,
  author: string,
  clock: () => number,
  newId: () => string,
): RuleBooks {
  const log = libraryActs(db, author, clock, newId);
  const columns = 'id, name, removed, revision, body';
  const living = db.prepare<[], Row>(`SELECT ${columns} FROM rule_book WHERE removed = 0 ORDER BY ordinal`);
  const byId = db.prepare<[string], Row>(`SELECT ${columns} FROM rule_book WHERE id = ?`);
  const count = db.prepare<[], number>('SELECT count(*) FROM rule_book WHERE removed = 0').pluck();
  const put = db.prepare(
    `INSERT INTO rule_book (id, name, author, revision, removed, body) VALUES (?, ?, ?, 1, 0, ?)
     ON CONFLICT (id) DO UPDATE SET name = excluded.name, author = excluded.author,
       revision = revision + 1, removed = 0, body = excluded.body`,
  );
  const setRemoved = db.prepare(
    'UPDATE rule_book SET removed = 1, author = ?, revision = revision + 1 WHERE id = ?',
  );
  /** Bodies that were read already, by id; a book of a megabyte is not checked anew for every look at the list. */
  const known = new Map<string, { readonly revision: number; readonly kept: KeptRuleBook }>();

  const there = (id: string): Row | null => {
    const row = byId.get(id);
    return row?.removed === 0 ? row : null;
  };
  const existing = (id: string): Row => {
    const row = there(id);
    if (!row) throw new LibraryTrouble('notFound', libraryTroubles.unknownRuleBook);
    return row;
  };
  const bookOf = (row: Row): RuleBook =>
    readBody(RuleBook, row.body, libraryTroubles.ruleBook(row.name, row.id));
  /** What the log keeps of a book: the stored body, or its text where that cannot be read any more. */
  const logged = (row: Row | null): unknown => {
    if (!row) return null;
    try {
      return JSON.parse(row.body);
    } catch {
      return row.body;
    }
  };
  /** Writes what is to stand under an id, and the act with it. */
  const write = (id: string, after: RuleBook | null, kind: LibraryActKind, target: number | null): number => {
    const before = there(id);
    if (after) put.run(id, after.name, author, JSON.stringify(after));
    else setRemoved.run(author, id);
    if (!before && (count.get() ?? 0) > mostRuleBooks) {
      throw new LibraryTrouble('badInput', libraryTroubles.ruleBooksFull(mostRuleBooks));
    }
    return log.append({
      kind,
      target,
      effects: [{ kind: 'ruleBook', id, before: logged(before), after }],
    });
  };
  const kept = (row: Row): KeptRuleBook => {
    const before = known.get(row.id);
    if (before?.revision === row.revision) return before.kept;
    let book: RuleBook | null = null;
    try {
      book = bookOf(row);
    } catch (error) {
      // A book that cannot be read stays in the list, under the name it had: looking into it says what is wrong.
      if (!(error instanceof LibraryTrouble)) throw error;
    }
    const made = { id: row.id, name: row.name, book };
    known.set(row.id, { revision: row.revision, kept: made });
    return made;
  };

  return {
    list: () => living.all().map(kept),
    read: (id) => bookOf(existing(id)),
    take: (given, replace) =>
      db
        .transaction((): RuleBookTaken => {
          const book = checked(given);
          const row = there(book.id);
          if (!row) return { was: 'new', act: write(book.id, book, 'take', null) };
          if (isDeepStrictEqual(logged(row), book)) return { was: 'same', act: null };
          if (!replace) return { was: 'other', act: null };
          return { was: 'replaced', act: write(book.id, book, 'replace', null) };
        })
        .immediate(),
    remove: (id) =>
      db
        .transaction((): number => {
          existing(id);
          return write(id, null, 'remove', null);
        })
        .immediate(),
    takeBack: (number) =>
      db
        .transaction((): void => {
          const act = log.read(number);
          if (!act) throw new LibraryTrouble('notFound', libraryTroubles.unknownLibraryAct);
          for (const { id, before, after } of act.effects.toReversed()) {
            if (!isDeepStrictEqual(logged(there(id)), after)) {
              throw new LibraryTrouble('conflict', libraryTroubles.ruleBookChangedSince);
            }
            write(id, before === null ? null : checked(before), 'takeBack', number);
          }
        })
        .immediate(),
  };
}

/** The book as it will be read back. Throws LibraryTrouble `badInput`. */
function checked(book: unknown): RuleBook {
  const parsed = RuleBook.safeParse(book);
  if (parsed.success) return asStored(parsed.data);
  throw new LibraryTrouble('badInput', libraryTroubles.ruleBookCannotBeKept(firstProblem(parsed.error)));
}
