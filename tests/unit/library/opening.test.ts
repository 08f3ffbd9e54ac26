import Sqlite from 'better-sqlite3';
import { fork } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { openDatabase } from '../../../src/library/database.ts';
import { applicationId } from '../../../src/library/format.ts';
import { layoutOf } from '../../../src/library/layout.ts';
import { migrations, newestVersion } from '../../../src/library/migrations.ts';
import { LibraryTrouble } from '../../../src/library/trouble.ts';
import { emptyReview, mark, note } from './examples.ts';
import { testFolders } from './folders.ts';

const folders = testFolders();

function trouble(work: () => unknown): LibraryTrouble {
  try {
    work();
  } catch (error) {
    if (error instanceof LibraryTrouble) return error;
    throw error;
  }
  throw new Error('Nothing was thrown');
}

/** Every file of a folder with a hash of its content: equal means that nothing was touched. */
const contents = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder, { withFileTypes: true })
      .filter((f) => f.isFile())
      .map((f) => [
        f.name,
        createHash('sha256')
          .update(readFileSync(join(folder, f.name)))
          .digest('hex'),
      ]),
  );

/** A closed library with enough in it to fill some pages. */
function filled(): string {
  const library = folders.library();
  library.reviews.add(emptyReview('r1'));
  const marks = Array.from({ length: 400 }, (_, i) =>
    mark(note(`m${i}`, i, 'a note of some length'.repeat(5))),
  );
  library.reviews.apply('r1', 'a1', 'many', marks);
  folders.close(library);
  return library.layout.folder;
}

test('a new library carries its own mark and version, and its folders', () => {
  const library = folders.library();
  expect(library.fresh).toBe(true);
  folders.close(library);
  const header = readFileSync(library.layout.database).subarray(0, 100);
  // https://www.sqlite.org/fileformat2.html: user version at 60, application id at 68.
  expect(header.readUInt32BE(60)).toBe(newestVersion());
  expect(header.readUInt32BE(68)).toBe(applicationId);
  expect(readdirSync(library.layout.folder).sort()).toEqual(
    ['clips', 'copies', 'incoming', 'pictures', 'reports', 'walkback.sqlite'].sort(),
  );
  expect(folders.library(library.layout.folder).fresh).toBe(false);
});

test('every act is written through: a write-ahead log and full synchronisation, kept to one process', () => {
  const library = folders.library();
  folders.close(library);
  const db = openDatabase(library.layout, migrations);
  try {
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    // 2 is FULL: https://www.sqlite.org/pragma.html#pragma_synchronous
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    expect(db.pragma('locking_mode', { simple: true })).toBe('exclusive');
  } finally {
    db.close();
  }
});

describe('a library that cannot be opened is left untouched', () => {
  test('written by a newer version', () => {
    const folder = filled();
    const db = new Sqlite(layoutOf(folder).database);
    db.pragma('journal_mode = DELETE');
    db.pragma(`user_version = ${newestVersion() + 1}`);
    db.close();
    const before = contents(folder);
    const error = trouble(() => folders.library(folder));
    expect(error.code).toBe('tooNew');
    expect(error.message).toContain(folder);
    expect(error.message).toContain('newer Walkback');
    expect(contents(folder)).toEqual(before);
  });

  test("another program's database", () => {
    const folder = folders.folder();
    mkdirSync(folder);
    const db = new Sqlite(layoutOf(folder).database);
    db.exec('CREATE TABLE recipes (id INTEGER)');
    db.close();
    const before = contents(folder);
    expect(trouble(() => folders.library(folder))).toMatchObject({ code: 'badInput' });
    expect(contents(folder)).toEqual(before);
    expect(readdirSync(folder)).toEqual(['walkback.sqlite']);
  });

  test.each([
    ['empty', 0],
    ['cut within the header', 60],
    ['cut after the first page', 4096],
    ['cut within a page', 10_000],
  ])('%s', (_name, bytes) => {
    const folder = filled();
    truncateSync(layoutOf(folder).database, bytes);
    const before = contents(folder);
    const error = trouble(() => folders.library(folder));
    expect(error.code).toBe('damaged');
    expect(error.message).toContain('walkback.sqlite is damaged');
    expect(contents(folder)).toEqual(before);
  });

  test('text under the name of the database', () => {
    const folder = folders.folder();
    mkdirSync(folder);
    writeFileSync(layoutOf(folder).database, 'Dear diary, '.repeat(1000));
    const before = contents(folder);
    expect(trouble(() => folders.library(folder)).code).toBe('damaged');
    expect(contents(folder)).toEqual(before);
  });

  test('a folder that is a file', () => {
    const folder = folders.folder();
    writeFileSync(folder, 'not a folder');
    const error = trouble(() => folders.library(folder));
    expect(error.code).toBe('unreadable');
    expect(readFileSync(folder, 'utf8')).toBe('not a folder');
  });
});

test('pages overwritten in the middle: the reading is refused with a clear message, never a crash', () => {
  const folder = filled();
  const { database } = layoutOf(folder);
  const bytes = readFileSync(database);
  bytes.fill(0xa5, 4096, bytes.length);
  writeFileSync(database, bytes);
  const error = trouble(() => folders.library(folder).reviews.whole('r1'));
  expect(error.code).toBe('damaged');
  expect(error.message).toContain(folder);
});

test('a log left by a program that was killed is taken in', () => {
  const folder = filled();
  const library = folders.library(folder);
  library.reviews.apply('r1', 'a2', 'the last one', [mark(note('last', 9))]);
  // What lies on the disk while the library is open is what a killed program leaves behind.
  const copy = folders.folder();
  mkdirSync(copy);
  for (const end of ['', '-wal']) copyFileSync(library.layout.database + end, layoutOf(copy).database + end);
  expect(statSync(`${layoutOf(copy).database}-wal`).size).toBeGreaterThan(0);
  const reopened = folders.library(copy);
  expect(reopened.reviews.whole('r1')).toMatchObject({ canUndo: 'the last one' });
});

test('a log that was cut short loses only acts at its end, and the library opens', () => {
  const folder = filled();
  const library = folders.library(folder);
  for (let n = 0; n < 30; n++) library.reviews.apply('r1', `b${n}`, `act ${n}`, [mark(note(`b${n}`, n))]);
  const whole = library.reviews.whole('r1');
  const log = readFileSync(`${library.layout.database}-wal`);
  for (const share of [0.1, 0.35, 0.6, 0.85]) {
    const copy = folders.folder();
    mkdirSync(copy);
    copyFileSync(library.layout.database, layoutOf(copy).database);
    writeFileSync(`${layoutOf(copy).database}-wal`, log.subarray(0, Math.floor(log.length * share)));
    const reopened = folders.library(copy);
    const found = reopened.reviews.whole('r1');
    expect(found.act).toBeLessThanOrEqual(whole.act);
    // Act 1 made the review, act 2 the 400 marks, each later act one more.
    expect(found.state.marks).toHaveLength(400 + found.act - 2);
    folders.close(reopened);
  }
});

describe('one at a time', () => {
  test('a second opening in this process is refused, and the first goes on', () => {
    const library = folders.library();
    library.reviews.add(emptyReview('r1'));
    const error = trouble(() => folders.library(library.layout.folder));
    expect(error).toMatchObject({ code: 'conflict', message: expect.stringContaining('already open') });
    library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 1))]);
  });

  test('a second opening from another process is refused, also after a second handle here was tried', async () => {
    const library = folders.library();
    library.reviews.add(emptyReview('r1'));
    expect(trouble(() => folders.library(library.layout.folder)).code).toBe('conflict');
    const other = fork(
      fileURLToPath(new URL('./openElsewhere.ts', import.meta.url)),
      [library.layout.folder],
      {
        execArgv: [],
      },
    );
    const told = await new Promise((resolve) => other.once('message', resolve));
    expect(told).toMatchObject({ code: 'conflict', message: expect.stringContaining('already open') });
    expect(library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 1))]).act).toBe(2);
  });
});
