import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { readBody } from './stored.ts';

/** What an act on the library as a whole did. `takeBack` undoes another act and names it as its target. */
export type LibraryActKind = 'take' | 'replace' | 'remove' | 'takeBack';

/** What the acts of this log are about. */
const things = ['ruleBook', 'dog'] as const;
export type LibraryThing = (typeof things)[number];

/** One thing in one act: its body before and after; null where it was not there. */
const Effect = z.strictObject({
  kind: z.enum(things),
  id: z.string(),
  before: z.unknown(),
  after: z.unknown(),
});

export interface LibraryAct {
  readonly act: number;
  readonly kind: LibraryActKind;
  readonly target: number | null;
  readonly effects: readonly z.infer<typeof Effect>[];
}

/** The append-only log of acts that concern no single review. */
export interface LibraryActs {
  read(act: number): LibraryAct | null;
  /** Writes the next act and returns its number. To be called inside the transaction that writes its effect. */
  append(act: Omit<LibraryAct, 'act'>): number;
}

interface Row {
  act: number;
  kind: LibraryActKind;
  target: number | null;
  changes: string;
}

/** `clock` gives a time for the reader's eyes; the order is the act's number. */
export function libraryActs(
  db: Database,
  author: string,
  clock: () => number,
  newId: () => string,
): LibraryActs {
  const byNumber = db.prepare<[number], Row>(
    'SELECT act, kind, target, changes FROM library_act WHERE act = ?',
  );
  const insert = db.prepare(
    'INSERT INTO library_act (act_id, kind, target, author, told_at, changes) VALUES (?, ?, ?, ?, ?, ?)',
  );
  return {
    read(number) {
      const row = byNumber.get(number);
      if (!row) return null;
      const { act, kind, target, changes } = row;
      return {
        act,
        kind,
        target,
        effects: readBody(z.array(Effect), changes, libraryTroubles.libraryAct(act)),
      };
    },
    append({ kind, target, effects }) {
      const changes = JSON.stringify(effects);
      return Number(insert.run(newId(), kind, target, author, Math.trunc(clock()), changes).lastInsertRowid);
    },
  };
}
