import fc from 'fast-check';
import { expect, test } from 'vitest';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { applyChanges, type Change, type ReviewState } from '../../../src/review/entities.ts';
import { emptyReview, note } from './examples.ts';
import { testFolders } from './folders.ts';

const folders = testFolders();

/** Few ids, so that entities are changed, removed and brought back often. */
const id = fc.constantFrom('a', 'b', 'c', 'd');
const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const change: fc.Arbitrary<Change> = fc.oneof(
  fc
    .record({ title: fc.string({ minLength: 1, maxLength: 30 }), dog: fc.string({ maxLength: 20 }) })
    .map((more): Change => ({
      kind: 'header',
      id: 'r1',
      body: { ...emptyReview('r1').header, ...more },
    })),
  fc
    .string({ maxLength: 50 })
    .map((notes): Change => ({ kind: 'plan', id: 'r1', body: { ...emptyPlan(), notes } })),
  fc
    .tuple(id, fc.maxSafeInteger(), fc.string({ maxLength: 20, unit: 'grapheme' }))
    .map(([i, pts, text]): Change => ({ kind: 'mark', id: i, body: note(i, pts, text) })),
  id.map((i): Change => ({ kind: 'mark', id: i, body: null })),
  fc.tuple(id, finite(-1e7, 1e7), finite(0.5, 2)).map(([i, offset, rate]): Change => ({
    kind: 'footage',
    id: i,
    body: { id: i, clipId: 'c', name: 'n', speed: [], offset, rate },
  })),
  id.map((i): Change => ({ kind: 'footage', id: i, body: null })),
  fc.tuple(id, fc.array(finite(-1, 2), { minLength: 4, maxLength: 8 })).map(([i, points]): Change => ({
    kind: 'drawing',
    id: i,
    body: { id: i, footageId: 'f', pts: 1, strokes: [{ ink: 'sky', points }] },
  })),
  fc.tuple(id, finite(0, 1), finite(0, 1)).map(([i, x, y]): Change => ({
    kind: 'track',
    id: i,
    body: {
      id: i,
      footageId: 'f',
      who: 'dog',
      point: 'withers',
      during: 'run',
      marks: [{ pts: 1, at: { x, y }, contact: 'air' }],
    },
  })),
  fc.tuple(id, finite(0, 1), finite(0, 1)).map(([i, x, y]): Change => ({
    kind: 'fit',
    id: i,
    body: { id: i, footageId: 'f', points: [{ part: { part: 'ringCorner1' }, at: { x, y }, pts: 1 }] },
  })),
);

type Step = { act: Change[] } | 'undo' | 'redo' | 'restart';
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 5, arbitrary: fc.array(change, { minLength: 1, maxLength: 6 }).map((act) => ({ act })) },
  { weight: 3, arbitrary: fc.constant<Step>('undo') },
  { weight: 2, arbitrary: fc.constant<Step>('redo') },
  { weight: 1, arbitrary: fc.constant<Step>('restart') },
);

/** As JSON gives it back: minus zero is zero there, in the store as in a review file. */
const plain = (state: ReviewState): unknown => JSON.parse(JSON.stringify(state));

/** The content without the order of lists: undo brings a removed entity back, at the end of its list. */
const content = (state: ReviewState): unknown => {
  const sorted = <T extends { id: string }>(list: readonly T[]) =>
    list.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  const { footage, marks, crosses, drawings, tracks, fits, ...rest } = state;
  return plain({
    ...rest,
    footage: sorted(footage),
    marks: sorted(marks),
    crosses: sorted(crosses),
    drawings: sorted(drawings),
    tracks: sorted(tracks),
    fits: sorted(fits),
  });
};

test('the store is always what applyChanges makes of the acts, through undo, redo and restarts', () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 25 }), (steps) => {
      let library = folders.library();
      const first = emptyReview('r1');
      library.reviews.add(first);
      // The whole path of states; undo and redo move along it.
      const before: ReviewState[] = [];
      const after: ReviewState[] = [];
      let now: ReviewState = first;
      let shown: ReviewState = first;
      steps.forEach((s, n) => {
        if (s === 'restart') {
          folders.close(library);
          library = folders.library(library.layout.folder);
        } else if (s === 'undo' || s === 'redo') {
          const [from, to] = s === 'undo' ? [before, after] : [after, before];
          const target = from.pop();
          if (!target) {
            expect(() => library.reviews[s]('r1')).toThrow('There is nothing to');
            return;
          }
          to.push(now);
          now = target;
          // What a window does with the act it is told of.
          shown = applyChanges(shown, library.reviews[s]('r1').changes);
        } else {
          before.push(now);
          after.length = 0;
          now = applyChanges(now, s.act);
          shown = applyChanges(shown, library.reviews.apply('r1', `act ${n}`, `label ${n}`, s.act).changes);
        }
        const stored = library.reviews.whole('r1');
        expect(content(stored.state)).toEqual(content(now));
        expect(plain(stored.state)).toEqual(plain(shown));
        expect(stored.canUndo === null).toBe(before.length === 0);
        expect(stored.canRedo === null).toBe(after.length === 0);
      });
      folders.close(library);
    }),
    { numRuns: 60 },
  );
});
