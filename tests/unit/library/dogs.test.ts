import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { mostDogs } from '../../../src/library/dogs.ts';
import { Dog, renamed, withFigure } from '../../../src/line/dog.ts';
import { book } from '../course/rules/books.ts';
import { testFolders } from './folders.ts';

const folders = testFolders();
const fen = Dog.parse({ id: 'd1', name: 'Fen' });
const moss = Dog.parse({ id: 'd2', name: 'Moss' });
const longer = withFigure(fen, 'landing', 2.2);
const conflict = expect.objectContaining({ code: 'conflict' }) as Error;

test('a dog is kept, changed, and there after a restart', () => {
  const library = folders.library();
  expect(library.dogs.save(fen, null)).toEqual({ was: 'new', act: 1, dog: fen, revision: 1 });
  expect(library.dogs.save(longer, 1)).toEqual({ was: 'changed', act: 2, dog: longer, revision: 2 });
  folders.close(library);
  const { dogs } = folders.library(library.layout.folder);
  expect(dogs.list()).toEqual([{ id: 'd1', name: 'Fen', revision: 2, body: longer }]);
});

test('a change made on what was there before is refused; the same again is not', () => {
  const { dogs } = folders.library();
  dogs.save(fen, null);
  dogs.save(longer, 1);
  expect(dogs.save(longer, 1)).toMatchObject({ was: 'same', act: null, revision: 2 });
  for (const basedOn of [null, 1, 3])
    expect(() => dogs.save({ ...fen, notes: 'x' }, basedOn)).toThrow(conflict);
  expect(dogs.read('d1')).toEqual(longer);
  expect(() => dogs.save(moss, 1)).toThrow(expect.objectContaining({ code: 'notFound' }));
});

test('no two dogs go by one name, of now or of before', () => {
  const { dogs } = folders.library();
  dogs.save(fen, null);
  dogs.save(moss, null);
  dogs.save(renamed(fen, 'Tarn'), 1);
  for (const name of ['m OSS', 'fen', ' Tarn '])
    expect(() => dogs.save({ ...moss, id: 'd3', name }, null)).toThrow(/goes by that name/);
  expect(() => dogs.save(renamed(moss, 'FEN'), 1)).toThrow(conflict);
  expect(dogs.save(renamed(fen, 'Fen'), 2)).toMatchObject({ was: 'changed', revision: 3 });
});

test('each act can be taken back, but not over what came after, nor beside a dog of that name', () => {
  const { dogs, ruleBooks } = folders.library();
  dogs.save(fen, null);
  dogs.save(longer, 1);
  expect(() => dogs.takeBack(1)).toThrow(conflict);
  dogs.takeBack(2);
  expect(dogs.read('d1')).toEqual(fen);
  const removed = dogs.remove('d1');
  expect(dogs.list()).toEqual([]);
  dogs.save({ ...moss, name: 'FEN' }, null);
  expect(() => dogs.takeBack(removed)).toThrow(/goes by that name/);
  dogs.remove('d2');
  dogs.takeBack(removed);
  expect(dogs.read('d1')).toEqual(fen);
  // An act on a rule book is none on a dog.
  const { act } = ruleBooks.take(book(), false);
  expect(() => dogs.takeBack(Number(act))).toThrow(expect.objectContaining({ code: 'notFound' }));
  expect(() => ruleBooks.takeBack(1)).toThrow(expect.objectContaining({ code: 'notFound' }));
});

test('what was removed leaves its row and its acts, with whose they are', () => {
  const library = folders.library();
  library.dogs.save(fen, null);
  library.dogs.remove('d1');
  folders.close(library);
  const db = new Sqlite(library.layout.database, { readonly: true });
  const rows = db.prepare('SELECT id, removed, revision, author FROM dog').all();
  const acts = db.prepare('SELECT kind, changes FROM library_act ORDER BY act').all();
  db.close();
  expect(rows).toEqual([{ id: 'd1', removed: 1, revision: 2, author: expect.stringMatching(/./) as string }]);
  expect(acts).toMatchObject([{ kind: 'take' }, { kind: 'remove' }]);
  expect((acts as { changes: string }[]).map((a) => JSON.parse(a.changes) as unknown)).toEqual([
    [{ kind: 'dog', id: 'd1', before: null, after: fen }],
    [{ kind: 'dog', id: 'd1', before: fen, after: null }],
  ]);
});

test('a dog that is none, or one too many, is refused and nothing of it kept', () => {
  const { dogs } = folders.library();
  const absurd = { ...fen, runner: { topSpeed: 400 } };
  expect(() => dogs.save(absurd, null)).toThrow(/runner\.topSpeed/);
  for (let n = 0; n < mostDogs; n++) dogs.save({ ...fen, id: `d ${n}`, name: `Fen ${n}` }, null);
  expect(() => dogs.save(moss, null)).toThrow(/dogs at the most/);
  expect(dogs.list()).toHaveLength(mostDogs);
});

test('a dog whose stored text is damaged stays in the list under her name, and can be removed', () => {
  const library = folders.library();
  library.dogs.save(fen, null);
  folders.close(library);
  const db = new Sqlite(library.layout.database);
  db.exec(`UPDATE dog SET body = '{"name":' WHERE id = 'd1'`);
  db.close();
  const { dogs } = folders.library(library.layout.folder);
  expect(dogs.list()).toMatchObject([{ id: 'd1', name: 'Fen', body: null }]);
  expect(() => dogs.read('d1')).toThrow(/“Fen”/);
  expect(() => dogs.save({ ...moss, name: 'fen' }, null)).toThrow(conflict);
  dogs.remove('d1');
  expect(dogs.list()).toEqual([]);
});
