import { expect, test } from 'vitest';
import type { Library } from '../../../src/library/library.ts';
import { LibraryTrouble } from '../../../src/library/trouble.ts';
import { emptyReview, mark, note } from './examples.ts';
import { testFolders } from './folders.ts';

const folders = testFolders();

/** Applies acts until there is no room; returns how many went in and what the next one threw. */
function fill(library: Library): { acts: number; error: unknown } {
  for (let n = 0; ; n++) {
    try {
      library.reviews.apply('r1', `a${n}`, `act ${n}`, [mark(note(`m${n}`, n, 'x'.repeat(2000)))]);
    } catch (error) {
      return { acts: n, error };
    }
  }
}

test('no room: the act is refused, nothing is changed, and what was there goes on', () => {
  const library = folders.library();
  library.reviews.add(emptyReview('r1'));
  library.limit(400_000);
  const { acts, error } = fill(library);
  expect(acts).toBeGreaterThan(5);
  expect(error).toBeInstanceOf(LibraryTrouble);
  expect(error).toMatchObject({ code: 'noSpace', message: expect.stringContaining(library.layout.folder) });
  const whole = library.reviews.whole('r1');
  expect(whole.state.marks).toHaveLength(acts);
  expect(whole).toMatchObject({ act: acts + 1, canUndo: `act ${acts - 1}` });
  expect(library.reviews.list()).toMatchObject([{ marks: acts, lastAct: acts + 1 }]);

  library.limit(100_000_000);
  library.reviews.apply('r1', `a${acts}`, 'now there is room', [mark(note('more', 1))]);
  expect(library.reviews.whole('r1')).toMatchObject({ act: acts + 2, canUndo: 'now there is room' });
  folders.close(library);
  expect(folders.library(library.layout.folder).reviews.whole('r1').act).toBe(acts + 2);
});

test('no room for a whole review: it is not there at all', () => {
  const library = folders.library();
  library.limit(200_000);
  const marks = Array.from({ length: 500 }, (_, i) => note(`m${i}`, i, 'x'.repeat(1000)));
  expect(() => library.reviews.add({ ...emptyReview('r1'), marks })).toThrow(LibraryTrouble);
  expect(library.reviews.has('r1')).toBe(false);
  expect(library.reviews.list()).toEqual([]);
});
