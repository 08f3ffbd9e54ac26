import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { mostRuleBooks } from '../../../src/library/ruleBooks.ts';
import type { Library } from '../../../src/library/library.ts';
import { book, ours } from '../course/rules/books.ts';
import { testFolders } from './folders.ts';

const folders = testFolders();

const evening = book({ course: { obstacles: { value: { most: 12 }, source: ours } } });
const longer = book({
  name: 'Our longer evening',
  course: { obstacles: { value: { most: 14 }, source: ours } },
});

/** What a second program finds in the file. */
function rows(library: Library, sql: string): unknown[] {
  folders.close(library);
  const db = new Sqlite(library.layout.database, { readonly: true });
  try {
    return db.prepare(sql).all();
  } finally {
    db.close();
  }
}

test('a book is taken in, read as it was written, and is there after a restart', () => {
  const library = folders.library();
  expect(library.ruleBooks.list()).toEqual([]);
  expect(library.ruleBooks.take(evening, false)).toEqual({ was: 'new', act: 1 });
  folders.close(library);
  const again = folders.library(library.layout.folder);
  expect(again.ruleBooks.read('ours')).toEqual(evening);
  expect(again.ruleBooks.list()).toEqual([{ id: 'ours', name: 'Our evening', revision: 1, body: evening }]);
});

test('the same book again changes nothing; another of its id gives way only when that is asked for', () => {
  const { ruleBooks } = folders.library();
  ruleBooks.take(evening, false);
  expect(ruleBooks.take(evening, true)).toEqual({ was: 'same', act: null });
  expect(ruleBooks.take(longer, false)).toEqual({ was: 'other', act: null });
  expect(ruleBooks.read('ours')).toEqual(evening);
  expect(ruleBooks.take(longer, true)).toEqual({ was: 'replaced', act: 2 });
  expect(ruleBooks.list()).toMatchObject([{ id: 'ours', name: 'Our longer evening' }]);
});

test('each act can be taken back, and its taking back too, also after a restart', () => {
  const library = folders.library();
  library.ruleBooks.take(evening, false);
  library.ruleBooks.take(longer, true);
  const removed = library.ruleBooks.remove('ours');
  expect(library.ruleBooks.list()).toEqual([]);
  folders.close(library);
  const { ruleBooks } = folders.library(library.layout.folder);
  ruleBooks.takeBack(removed);
  expect(ruleBooks.read('ours')).toEqual(longer);
  ruleBooks.takeBack(2);
  expect(ruleBooks.read('ours')).toEqual(evening);
  ruleBooks.takeBack(1);
  expect(ruleBooks.list()).toEqual([]);
  ruleBooks.takeBack(6);
  expect(ruleBooks.read('ours')).toEqual(evening);
});

test('an act is not taken back over what came after it', () => {
  const { ruleBooks } = folders.library();
  ruleBooks.take(evening, false);
  ruleBooks.take(longer, true);
  expect(() => ruleBooks.takeBack(1)).toThrow(expect.objectContaining({ code: 'conflict' }));
  expect(() => ruleBooks.takeBack(99)).toThrow(expect.objectContaining({ code: 'notFound' }));
  expect(ruleBooks.read('ours')).toEqual(longer);
});

test('every act is a row of the log with what was before and after; a removed book leaves its row', () => {
  const library = folders.library(undefined, { clock: () => 1234 });
  library.ruleBooks.take(evening, false);
  library.ruleBooks.remove('ours');
  const log = rows(library, 'SELECT act, kind, target, told_at, changes FROM library_act ORDER BY act');
  expect(log).toMatchObject([
    { act: 1, kind: 'take', target: null, told_at: 1234 },
    { act: 2, kind: 'remove', target: null },
  ]);
  const effects = (log as { changes: string }[]).map((row) => JSON.parse(row.changes) as unknown);
  expect(effects).toEqual([
    [{ kind: 'ruleBook', id: 'ours', before: null, after: evening }],
    [{ kind: 'ruleBook', id: 'ours', before: evening, after: null }],
  ]);
  expect(rows(library, 'SELECT id, removed, revision FROM rule_book')).toEqual([
    { id: 'ours', removed: 1, revision: 2 },
  ]);
});

test('what is not there cannot be read or removed; what was removed can come again', () => {
  const { ruleBooks } = folders.library();
  for (const act of [() => ruleBooks.read('ours'), () => ruleBooks.remove('ours')])
    expect(act).toThrow(expect.objectContaining({ code: 'notFound' }));
  ruleBooks.take(evening, false);
  ruleBooks.remove('ours');
  expect(() => ruleBooks.read('ours')).toThrow(expect.objectContaining({ code: 'notFound' }));
  expect(ruleBooks.take(longer, false)).toMatchObject({ was: 'new' });
});

test('a library that is full of books says so, and keeps none of the last one', () => {
  const { ruleBooks } = folders.library();
  for (let n = 0; n < mostRuleBooks; n++) ruleBooks.take(book({ id: `book ${n}` }), false);
  expect(() => ruleBooks.take(evening, false)).toThrow(/100 rule books at the most/);
  expect(ruleBooks.list()).toHaveLength(mostRuleBooks);
  expect(() => ruleBooks.read('ours')).toThrow(expect.objectContaining({ code: 'notFound' }));
  const act = ruleBooks.remove('book 0');
  ruleBooks.take(evening, false);
  expect(() => ruleBooks.takeBack(act)).toThrow(/100 rule books at the most/);
});

test('a book whose stored text is damaged stays in the list, says so when it is read, and can be removed', () => {
  const library = folders.library();
  library.ruleBooks.take(evening, false);
  library.ruleBooks.take(book({ id: 'other', name: 'Another' }), false);
  folders.close(library);
  const db = new Sqlite(library.layout.database);
  db.exec(`UPDATE rule_book SET body = '{"format":' WHERE id = 'ours'`);
  db.close();
  const { ruleBooks } = folders.library(library.layout.folder);
  expect(ruleBooks.list()).toMatchObject([{ id: 'ours', body: null }, { id: 'other' }]);
  expect(() => ruleBooks.read('ours')).toThrow(expect.objectContaining({ code: 'damaged' }));
  expect(() => ruleBooks.read('ours')).toThrow(/“Our evening”/);
  ruleBooks.remove('ours');
  expect(ruleBooks.list()).toMatchObject([{ id: 'other' }]);
});

test('a disk that is full keeps neither the book nor an act of it', () => {
  const library = folders.library();
  library.limit(4096);
  const large = book({ about: 'x'.repeat(1900), id: 'large' });
  expect(() => {
    for (let n = 0; n < 60; n++) library.ruleBooks.take({ ...large, id: `large ${n}` }, false);
  }).toThrow(expect.objectContaining({ code: 'noSpace' }));
  library.limit(2 ** 30);
  const acts = library.ruleBooks.list().length;
  expect(rows(library, 'SELECT act FROM library_act')).toHaveLength(acts);
});
