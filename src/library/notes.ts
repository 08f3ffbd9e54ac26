import type { Database } from 'better-sqlite3';
import type { z } from 'zod';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { readBody } from './stored.ts';

/** Small documents of the library, each under a name and with a version: the library's own id, preferences. */
export interface Notes {
  /** null where there is none, or one of another version. */
  read<S extends z.ZodType>(name: string, version: number, schema: S): z.output<S> | null;
  write(name: string, version: number, body: unknown): void;
}

export function notesOf(db: Database): Notes {
  const get = db.prepare<[string], { version: number; body: string }>(
    'SELECT version, body FROM note WHERE name = ?',
  );
  const put = db.prepare(
    `INSERT INTO note (name, version, body) VALUES (?, ?, ?)
     ON CONFLICT (name) DO UPDATE SET version = excluded.version, body = excluded.body`,
  );
  return {
    read(name, version, schema) {
      const row = get.get(name);
      return row?.version === version ? readBody(schema, row.body, libraryTroubles.note(name)) : null;
    },
    write: (name, version, body) => void put.run(name, version, JSON.stringify(body)),
  };
}
