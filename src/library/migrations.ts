import type { Database } from 'better-sqlite3';

/** One step of the file format. Never changed once it was handed out; the next step gets the next number. */
export interface Migration {
  readonly version: number;
  readonly name: string;
  up(db: Database): void;
}

/** All steps, in order. Each has a case in tests/unit/library/migrationCases.ts; a test fails where one has none. */
export const migrations: readonly Migration[] = [
  {
    version: 1,
    name: 'reviews, acts, clips, pictures, notes',
    up(db) {
      db.exec(`
        CREATE TABLE table_version (name TEXT PRIMARY KEY, version INTEGER NOT NULL) STRICT;
        CREATE TABLE migration (version INTEGER PRIMARY KEY, name TEXT NOT NULL) STRICT;

        CREATE TABLE note (
          name TEXT PRIMARY KEY,
          version INTEGER NOT NULL,
          body TEXT NOT NULL
        ) STRICT;

        CREATE TABLE review (
          ordinal INTEGER PRIMARY KEY,
          id TEXT NOT NULL UNIQUE,
          title TEXT NOT NULL,
          author TEXT NOT NULL,
          revision INTEGER NOT NULL,
          removed INTEGER NOT NULL DEFAULT 0
        ) STRICT;

        CREATE TABLE entity (
          review_id TEXT NOT NULL REFERENCES review (id),
          kind TEXT NOT NULL,
          id TEXT NOT NULL,
          author TEXT NOT NULL,
          revision INTEGER NOT NULL,
          removed INTEGER NOT NULL,
          ordinal INTEGER NOT NULL,
          body TEXT NOT NULL,
          PRIMARY KEY (review_id, kind, id)
        ) STRICT;
        CREATE INDEX entity_in_order ON entity (review_id, kind, ordinal, removed);

        CREATE TABLE act (
          review_id TEXT NOT NULL REFERENCES review (id),
          act INTEGER NOT NULL,
          act_id TEXT NOT NULL,
          kind TEXT NOT NULL,
          target INTEGER,
          author TEXT NOT NULL,
          label TEXT NOT NULL,
          told_at INTEGER NOT NULL,
          changes TEXT NOT NULL,
          PRIMARY KEY (review_id, act),
          UNIQUE (review_id, act_id)
        ) STRICT;

        CREATE TABLE clip (
          ordinal INTEGER PRIMARY KEY,
          id TEXT NOT NULL UNIQUE,
          author TEXT NOT NULL,
          revision INTEGER NOT NULL,
          removed INTEGER NOT NULL DEFAULT 0,
          name TEXT NOT NULL,
          path TEXT,
          file_time REAL,
          sha256 TEXT NOT NULL UNIQUE,
          bytes INTEGER NOT NULL,
          facts_version INTEGER NOT NULL,
          facts TEXT NOT NULL,
          time_base_num INTEGER NOT NULL,
          time_base_den INTEGER NOT NULL,
          pts BLOB NOT NULL,
          copy_file TEXT,
          copy_bytes INTEGER,
          copy_shift INTEGER
        ) STRICT;

        CREATE TABLE picture (
          id TEXT PRIMARY KEY,
          author TEXT NOT NULL,
          name TEXT NOT NULL,
          file TEXT NOT NULL,
          mime TEXT NOT NULL,
          width INTEGER NOT NULL,
          height INTEGER NOT NULL,
          bytes INTEGER NOT NULL
        ) STRICT;

        INSERT INTO table_version (name, version) VALUES
          ('note', 1), ('review', 1), ('entity', 1), ('act', 1), ('clip', 1), ('picture', 1);
      `);
    },
  },
  {
    version: 2,
    name: 'footage tells how it was lined up',
    up(db) {
      // What is stored stays as it is. The number keeps an older Walkback from taking the new field for damage.
      db.exec(`UPDATE table_version SET version = 2 WHERE name = 'entity'`);
    },
  },
  {
    version: 3,
    name: 'footage tells its cut, the runs in it and how sure a speed is; clips what their file says of it',
    up(db) {
      // As above: only new fields that may be absent.
      db.exec(`UPDATE table_version SET version = version + 1 WHERE name IN ('entity', 'clip')`);
    },
  },
  {
    version: 4,
    name: 'clips tell what is wanted of their working copy, when they were opened, and whether fields are frames',
    up(db) {
      db.exec(`
        ALTER TABLE clip ADD COLUMN copy_width INTEGER;
        ALTER TABLE clip ADD COLUMN copy_height INTEGER;
        ALTER TABLE clip ADD COLUMN copy_wish TEXT;
        ALTER TABLE clip ADD COLUMN opened INTEGER NOT NULL DEFAULT 0;
        ALTER TABLE clip ADD COLUMN fields INTEGER NOT NULL DEFAULT 0;
        UPDATE table_version SET version = version + 1 WHERE name = 'clip';
      `);
    },
  },
  {
    version: 5,
    name: 'courses tell their head, lines, sizes of equipment, backsides, wraps and the lie of their picture',
    up(db) {
      // As for 2: only new fields that may be absent.
      db.exec(`UPDATE table_version SET version = version + 1 WHERE name = 'entity'`);
    },
  },
  {
    version: 6,
    name: 'rule books, and a log of acts on the library as a whole; courses tell what their rule book was and their times',
    up(db) {
      db.exec(`
        CREATE TABLE rule_book (
          ordinal INTEGER PRIMARY KEY,
          id TEXT NOT NULL UNIQUE,
          name TEXT NOT NULL,
          author TEXT NOT NULL,
          revision INTEGER NOT NULL,
          removed INTEGER NOT NULL DEFAULT 0,
          body TEXT NOT NULL
        ) STRICT;

        CREATE TABLE library_act (
          act INTEGER PRIMARY KEY AUTOINCREMENT,
          act_id TEXT NOT NULL UNIQUE,
          kind TEXT NOT NULL,
          target INTEGER,
          author TEXT NOT NULL,
          told_at INTEGER NOT NULL,
          changes TEXT NOT NULL
        ) STRICT;

        INSERT INTO table_version (name, version) VALUES ('rule_book', 1), ('library_act', 1);
        UPDATE table_version SET version = version + 1 WHERE name = 'entity';
      `);
    },
  },
  {
    version: 7,
    name: 'plans tell spots, sides, supports, wanted line and pace, and keep others beside them; tracks, fits',
    up(db) {
      // As for 2: what a stored plan does not say is empty.
      db.exec(`UPDATE table_version SET version = version + 1 WHERE name = 'entity'`);
    },
  },
  {
    version: 8,
    name: 'dogs: how each runs and what she can do',
    up(db) {
      db.exec(`
        CREATE TABLE dog (
          ordinal INTEGER PRIMARY KEY,
          id TEXT NOT NULL UNIQUE,
          name TEXT NOT NULL,
          author TEXT NOT NULL,
          revision INTEGER NOT NULL,
          removed INTEGER NOT NULL DEFAULT 0,
          body TEXT NOT NULL
        ) STRICT;

        INSERT INTO table_version (name, version) VALUES ('dog', 1);
        UPDATE table_version SET version = version + 1 WHERE name = 'library_act';
      `);
    },
  },
];

/** The newest format that this program knows. */
export const newestVersion = (list: readonly Migration[] = migrations): number =>
  Math.max(0, ...list.map((m) => m.version));

/** Brings a database up to the newest version; every step is one transaction together with its number. */
export function migrate(db: Database, list: readonly Migration[] = migrations): void {
  for (const migration of list) {
    if (migration.version <= Number(db.pragma('user_version', { simple: true }))) continue;
    db.transaction(() => {
      migration.up(db);
      db.prepare('INSERT INTO migration (version, name) VALUES (?, ?)').run(
        migration.version,
        migration.name,
      );
      db.pragma(`user_version = ${migration.version}`);
    })();
  }
}
