import type { Database } from 'better-sqlite3';
import { isDeepStrictEqual } from 'node:util';
import { RuleBook } from '../course/rules/book.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { keptThings, type KeptThings } from './kept.ts';

/** Most rule books that a library holds, so that the list stays one. */
export const mostRuleBooks = 100;

/** How taking a book in ended. `other`: one of this id with other entries is there; nothing was changed. */
export type RuleBookTaken =
  | { readonly was: 'new' | 'replaced'; readonly act: number }
  | { readonly was: 'same' | 'other'; readonly act: null };

/** The rule books that users wrote. Every function throws LibraryTrouble; whatever throws has changed nothing. */
export interface RuleBooks extends Pick<KeptThings<RuleBook>, 'list' | 'read' | 'remove' | 'takeBack'> {
  /** Takes a book in under its own id; one that differs gives way only where `replace` is set. */
  take(book: RuleBook, replace: boolean): RuleBookTaken;
}

export function ruleBooksOf(
  db: Database,
  author: string,
  clock: () => number,
  newId: () => string,
): RuleBooks {
  const { list, read, remove, takeBack, stored, checked, write } = keptThings<RuleBook>(
    db,
    author,
    clock,
    newId,
    {
      table: 'rule_book',
      kind: 'ruleBook',
      schema: RuleBook,
      most: mostRuleBooks,
      words: libraryTroubles.ruleBooks,
    },
  );
  return {
    list,
    read,
    remove,
    takeBack,
    take: (given, replace) =>
      db
        .transaction((): RuleBookTaken => {
          const book = checked(given);
          const there = stored(book.id);
          if (!there) return { was: 'new', act: write(book.id, book, 'take') };
          if (isDeepStrictEqual(there.body, book)) return { was: 'same', act: null };
          if (!replace) return { was: 'other', act: null };
          return { was: 'replaced', act: write(book.id, book, 'replace') };
        })
        .immediate(),
  };
}
