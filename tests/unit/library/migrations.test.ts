import Sqlite from 'better-sqlite3';
import { existsSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { migrate, migrations, newestVersion, type Migration } from '../../../src/library/migrations.ts';
import { emptyReview, mark, note } from './examples.ts';
import { testFolders } from './folders.ts';
import { migrationCases } from './migrationCases.ts';

const folders = testFolders();

test('every step of the format has a case, and every case a step', () => {
  expect(Object.keys(migrationCases).map(Number)).toEqual(migrations.map((m) => m.version));
});

test('steps are numbered 1, 2, 3 … and named', () => {
  expect(migrations.map((m) => m.version)).toEqual(migrations.map((_, i) => i + 1));
  for (const { name } of migrations) expect(name).not.toBe('');
});

describe.each(migrations.map((m) => [m.version, m.name] as const))('step %i: %s', (version) => {
  test('keeps what was there', () => {
    const db = new Sqlite(':memory:');
    db.pragma('foreign_keys = ON');
    migrate(
      db,
      migrations.filter((m) => m.version < version),
    );
    const one = migrationCases[version];
    if (!one) throw new Error(`Format ${version} has no case`);
    one.before(db);
    migrate(
      db,
      migrations.filter((m) => m.version <= version),
    );
    one.after(db);
    expect(db.pragma('user_version', { simple: true })).toBe(version);
    expect(db.prepare('SELECT max(version) FROM migration').pluck().get()).toBe(version);
    db.close();
  });
});

/** A step that comes after the newest one. */
const later = (up: Migration['up']): Migration[] => [
  ...migrations,
  { version: newestVersion() + 1, name: 'a later step', up },
];

test('an older library is brought up to date, a copy of it is kept, and its content stays', () => {
  const library = folders.library();
  library.reviews.add(emptyReview('r1'));
  library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 1))]);
  folders.close(library);
  const newer = later((db) => db.exec('CREATE TABLE more (id TEXT) STRICT'));
  const reopened = folders.library(library.layout.folder, { migrations: newer });
  expect(reopened.reviews.whole('r1').state.marks).toEqual([note('m1', 1)]);
  const kept = `${library.layout.database}.format-${newestVersion()}`;
  const copy = new Sqlite(kept, { readonly: true });
  expect(copy.pragma('user_version', { simple: true })).toBe(newestVersion());
  expect(copy.prepare('SELECT count(*) FROM entity').pluck().get()).toBe(4);
  copy.close();
});

test('a step that fails leaves the library as it was', () => {
  const library = folders.library();
  library.reviews.add(emptyReview('r1'));
  folders.close(library);
  const failing = later((db) => {
    db.exec('DROP TABLE act; CREATE TABLE more (id TEXT)');
    throw new Error('this step fails');
  });
  expect(() => folders.library(library.layout.folder, { migrations: failing })).toThrow('this step fails');
  const reopened = folders.library(library.layout.folder);
  expect(reopened.reviews.whole('r1')).toMatchObject({ act: 1 });
});

test('a library that could not be made leaves no half-made file', () => {
  const folder = folders.folder();
  const failing: Migration[] = [
    {
      version: 1,
      name: 'fails',
      up() {
        throw new Error('this step fails');
      },
    },
  ];
  expect(() => folders.library(folder, { migrations: failing })).toThrow('this step fails');
  expect(existsSync(folder) ? readdirSync(folder) : []).toEqual([]);
  expect(folders.library(folder).fresh).toBe(true);
});
