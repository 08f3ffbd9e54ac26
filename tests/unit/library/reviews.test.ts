import Sqlite from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import type { Library } from '../../../src/library/library.ts';
import type { Change } from '../../../src/review/entities.ts';
import { emptyReview, mark, note, unmark } from './examples.ts';
import { testFolders } from './folders.ts';

const folders = testFolders();

/** What a call throws, as code and message. */
function thrown(work: () => unknown): { code: string; message: string } {
  try {
    work();
  } catch (error) {
    if (error instanceof Error && 'code' in error)
      return { code: String(error.code), message: error.message };
    throw error;
  }
  throw new Error('Nothing was thrown');
}

function withReview(): Library {
  const library = folders.library();
  library.reviews.add(emptyReview('r1'));
  return library;
}

const marksOf = (library: Library) => library.reviews.whole('r1').state.marks.map((m) => m.id);

describe('acts', () => {
  test('an act is numbered, applied and named for undo', () => {
    const { reviews } = withReview();
    const first = reviews.apply('r1', 'a1', 'Mark jump 3', [mark(note('m1', 5))]);
    const second = reviews.apply('r1', 'a2', 'Mark jump 4', [mark(note('m2', 6))]);
    expect(second.act).toBe(first.act + 1);
    expect(second).toMatchObject({ canUndo: 'Mark jump 4', canRedo: null, repeated: false });
    expect(reviews.whole('r1')).toMatchObject({ act: second.act, canUndo: 'Mark jump 4' });
  });

  test('the same act again is answered and not done twice, also after a restart', () => {
    const library = withReview();
    const first = library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 5))]);
    const again = library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 5))]);
    expect(again).toMatchObject({ act: first.act, repeated: true });
    folders.close(library);
    const reopened = folders.library(library.layout.folder);
    expect(reopened.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 5))])).toMatchObject({
      act: first.act,
      repeated: true,
    });
    expect(reopened.reviews.whole('r1').act).toBe(first.act);
  });

  test('an act id that comes back with other changes is refused', () => {
    const library = withReview();
    library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 5))]);
    const error = thrown(() => library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 6))]));
    expect(error.code).toBe('conflict');
    expect(library.reviews.whole('r1').state.marks).toEqual([note('m1', 5)]);
  });

  test('all changes or none', () => {
    const library = withReview();
    const wrong = { kind: 'mark', id: 'm2', body: { ...note('m2', 1), pts: Number.NaN } } as Change;
    const error = thrown(() => library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 5)), wrong]));
    expect(error).toMatchObject({ code: 'badInput', message: expect.stringContaining('pts') });
    expect(marksOf(library)).toEqual([]);
    expect(library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 5))]).repeated).toBe(false);
  });

  test.each([
    ['a body that carries another id', { kind: 'mark', id: 'm1', body: note('m2', 1) }],
    ['a part of another review', { kind: 'plan', id: 'r2', body: { crosses: [], notes: '' } }],
    ['taking away the course', { kind: 'course', id: 'r1', body: null }],
    [
      'an infinite point',
      {
        kind: 'drawing',
        id: 'd',
        body: { id: 'd', footageId: 'f', pts: 1, strokes: [{ ink: 'sun', points: [0, 0, Infinity, 1] }] },
      },
    ],
    ['an unknown key', { kind: 'mark', id: 'm1', body: { ...note('m1', 1), speed: 3 } }],
    ['a time that is no whole number', { kind: 'mark', id: 'm1', body: { ...note('m1', 1.5) } }],
  ])('refuses %s', (_name, change) => {
    const library = withReview();
    const before = library.reviews.whole('r1');
    const error = thrown(() => library.reviews.apply('r1', 'a1', 'x', [change as Change]));
    expect(error.code).toBe('badInput');
    expect(library.reviews.whole('r1')).toEqual(before);
  });

  test('refuses more footage than a review file can hold', () => {
    const library = withReview();
    const footage = (n: number): Change => ({
      kind: 'footage',
      id: `f${n}`,
      body: { id: `f${n}`, clipId: 'c', name: 'clip', speed: [], offset: 0, rate: 1 },
    });
    library.reviews.apply(
      'r1',
      'a1',
      'x',
      Array.from({ length: 40 }, (_, n) => footage(n)),
    );
    const error = thrown(() => library.reviews.apply('r1', 'a2', 'x', [footage(40)]));
    expect(error).toMatchObject({ code: 'badInput', message: expect.stringContaining('40') });
    expect(library.reviews.whole('r1').state.footage).toHaveLength(40);
  });
});

describe('undo and redo', () => {
  test('take back and do again what an act did, entity by entity', () => {
    const library = withReview();
    library.reviews.apply('r1', 'a1', 'one', [mark(note('m1', 1)), mark(note('m2', 2))]);
    library.reviews.apply('r1', 'a2', 'two', [mark(note('m1', 9)), unmark('m2')]);
    const undone = library.reviews.undo('r1');
    expect(undone).toMatchObject({ label: 'two', canUndo: 'one', canRedo: 'two' });
    expect(library.reviews.whole('r1').state.marks).toEqual([note('m1', 1), note('m2', 2)]);
    library.reviews.redo('r1');
    expect(library.reviews.whole('r1').state.marks).toEqual([note('m1', 9)]);
  });

  test('an act that changes one entity twice is taken back whole', () => {
    const library = withReview();
    library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 1)), mark(note('m1', 2)), unmark('m1')]);
    library.reviews.apply('r1', 'a2', 'y', [mark(note('m1', 3)), mark(note('m1', 4))]);
    library.reviews.undo('r1');
    expect(marksOf(library)).toEqual([]);
    library.reviews.redo('r1');
    expect(library.reviews.whole('r1').state.marks).toEqual([note('m1', 4)]);
  });

  test('survive a restart', () => {
    const library = withReview();
    for (const n of [1, 2, 3]) library.reviews.apply('r1', `a${n}`, `act ${n}`, [mark(note(`m${n}`, n))]);
    library.reviews.undo('r1');
    folders.close(library);
    const second = folders.library(library.layout.folder);
    expect(second.reviews.whole('r1')).toMatchObject({ canUndo: 'act 2', canRedo: 'act 3' });
    expect(second.reviews.undo('r1')).toMatchObject({ canUndo: 'act 1', canRedo: 'act 2' });
    folders.close(second);
    const third = folders.library(library.layout.folder);
    third.reviews.redo('r1');
    third.reviews.redo('r1');
    expect(marksOf(third)).toEqual(['m1', 'm2', 'm3']);
    expect(thrown(() => third.reviews.redo('r1')).code).toBe('conflict');
  });

  test('a new act clears what could be done again', () => {
    const library = withReview();
    library.reviews.apply('r1', 'a1', 'one', [mark(note('m1', 1))]);
    library.reviews.undo('r1');
    expect(library.reviews.apply('r1', 'a2', 'two', [mark(note('m2', 2))])).toMatchObject({ canRedo: null });
    expect(thrown(() => library.reviews.redo('r1'))).toMatchObject({
      code: 'conflict',
      message: 'There is nothing to redo.',
    });
    expect(marksOf(library)).toEqual(['m2']);
  });

  test('making, removing and restoring a review are no steps of undo', () => {
    const library = withReview();
    expect(thrown(() => library.reviews.undo('r1')).code).toBe('conflict');
    library.reviews.apply('r1', 'a1', 'one', [mark(note('m1', 1))]);
    library.reviews.remove('r1');
    library.reviews.restore('r1');
    expect(library.reviews.undo('r1').label).toBe('one');
  });
});

describe('the list', () => {
  test('follows what acts change', () => {
    const library = withReview();
    const header = { ...library.reviews.whole('r1').state.header, title: 'Renamed', dog: 'Quill' };
    library.reviews.apply('r1', 'a1', 'x', [
      { kind: 'header', id: 'r1', body: header },
      {
        kind: 'footage',
        id: 'f1',
        body: { id: 'f1', clipId: 'c1', name: 'n', speed: [], offset: 0, rate: 1 },
      },
      mark(note('m1', 1)),
    ]);
    const expected = { title: 'Renamed', dog: 'Quill', marks: 1, clipIds: ['c1'], lastAct: 2 };
    expect(library.reviews.list()).toMatchObject([expected]);
    folders.close(library);
    expect(folders.library(library.layout.folder).reviews.list()).toMatchObject([expected]);
  });

  test('leaves out what was removed, and brings it back with all its acts', () => {
    const library = withReview();
    library.reviews.apply('r1', 'a1', 'one', [mark(note('m1', 1))]);
    library.reviews.remove('r1');
    expect(library.reviews.list()).toEqual([]);
    expect(thrown(() => library.reviews.whole('r1'))).toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('Tuesday, second run'),
    });
    expect(thrown(() => library.reviews.apply('r1', 'a2', 'x', [unmark('m1')])).code).toBe('conflict');
    library.reviews.restore('r1');
    expect(library.reviews.whole('r1')).toMatchObject({ canUndo: 'one', state: { marks: [{ id: 'm1' }] } });
  });

  test('an id that is taken is refused; entries that share an id are refused', () => {
    const library = withReview();
    expect(thrown(() => library.reviews.add(emptyReview('r1'))).code).toBe('conflict');
    const twice = { ...emptyReview('r2'), marks: [note('m1', 1), note('m1', 2)] };
    expect(thrown(() => library.reviews.add(twice))).toMatchObject({
      code: 'badInput',
      message: expect.stringContaining('m1'),
    });
    expect(library.reviews.has('r2')).toBe(false);
  });
});

describe('rows that were damaged', () => {
  test.each([
    ['text that is not JSON', `UPDATE entity SET body = '{"id":' WHERE kind = 'mark'`, 'mark'],
    ['JSON of another form', `UPDATE entity SET body = '[]' WHERE kind = 'course'`, 'course'],
    [
      'a number out of range',
      `UPDATE entity SET body = replace(body, '0.4', '99') WHERE kind = 'header'`,
      'heading',
    ],
    ['a part that is gone', `DELETE FROM entity WHERE kind = 'plan'`, 'plan'],
  ])('%s: the error names the review, the others are as they were', (_name, sql, part) => {
    const library = withReview();
    library.reviews.apply('r1', 'a1', 'x', [mark(note('m1', 1))]);
    library.reviews.add(emptyReview('r2', 'The other one'));
    folders.close(library);
    const db = new Sqlite(library.layout.database);
    db.exec(sql.replace('WHERE', "WHERE review_id = 'r1' AND"));
    db.close();

    const reopened = folders.library(library.layout.folder);
    const error = thrown(() => reopened.reviews.whole('r1'));
    expect(error.code).toBe('damaged');
    expect(error.message).toContain('Tuesday, second run');
    expect(error.message).toContain(part);
    expect(reopened.reviews.list().map((r) => r.title)).toEqual(['Tuesday, second run', 'The other one']);
    expect(reopened.reviews.whole('r2').state.header.title).toBe('The other one');
  });
});
