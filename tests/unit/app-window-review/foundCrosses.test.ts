import { describe, expect, it } from 'vitest';
import { markedAs, takeFound } from '../../../app/window/review/track/foundCrosses.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { applyChanges, type ReviewState } from '../../../src/review/entities.ts';
import { seenOf } from '../../../src/review/moments.ts';
import type { CrossFound } from '../../../src/track/crossesFound.ts';
import { aroundCrossWords } from '../../../src/words/aroundCross.ts';
import { clocks, emptyReview } from './bench.ts';

const found: CrossFound = {
  crossed: {
    place: { x: 0, y: 0 } as CrossFound['crossed']['place'],
    handlerAt: { value: 2, plusMinus: 0.05, unit: 's' },
    dogAt: { value: 3, plusMinus: 0.05, unit: 's' },
    first: 'handler',
    onto: 'left',
    unseen: null,
  },
  place: 2,
  kind: 'blind',
  plannedId: 'p',
  kindOpen: true,
  finished: { value: 2.21, plusMinus: 0.05, unit: 's' },
};

let ids = 0;
const makeId = (): string => `n${(ids += 1)}`;
const clock = clocks().get('f1');
if (!clock) throw new Error('no clock');
const clips = [{ footageId: 'f1', clock }];
const take = (review: ReviewState, markedId: string | null = null) =>
  takeFound(review, found, markedId, clips, makeId);

describe('taking over a cross that was found on the ground', () => {
  it('sets its number, kind, tie to the plan and the frame on which it is finished, in one act', () => {
    const before = emptyReview();
    const act = take(before);
    const after = applyChanges(before, act?.changes ?? []);
    expect(act?.label).toBe('2, blind cross, taken over from the ground');
    expect(after.crosses).toMatchObject([{ place: 2, kind: 'blind', plannedId: 'p' }]);
    const [mark] = after.marks;
    // Seen first on the frame that begins next after 2.21 s, off by 0.05 s: three frames of a fiftieth.
    expect(mark).toMatchObject({ kind: 'cross', part: 'cueEnds', pts: 222, unsure: 3 });
    expect(act?.selects).toBe(mark?.id);
    expect(mark && seenOf(mark, 'barJump')).toBe('first');
  });

  it('adds only the finish to a cross that is marked, and never moves one that the coach has set', () => {
    const marked = applyChanges(emptyReview(), [
      { kind: 'cross', id: 'mine', body: { id: 'mine', place: 2, kind: 'front', note: '' } },
    ]);
    const act = take(marked, 'mine');
    expect(act?.changes).toHaveLength(1);
    const after = applyChanges(marked, act?.changes ?? []);
    expect(after.crosses).toMatchObject([{ id: 'mine', kind: 'front' }]);
    expect(after.marks).toMatchObject([{ crossId: 'mine', part: 'cueEnds' }]);
    expect(take(after, 'mine')).toBeNull();
    expect(takeFound(emptyReview(), found, null, [], makeId)).toBeNull();
  });

  it('knows a marked cross again by its number, or by its time', () => {
    const crossesOf = (place: number, pts: readonly number[]) => {
      const review = applyChanges(emptyReview(), [
        { kind: 'cross', id: 'mine', body: { id: 'mine', place, kind: 'front', note: '' } },
        ...pts.map((at, i) => ({
          kind: 'mark' as const,
          id: `m${i}`,
          body: {
            id: `m${i}`,
            kind: 'cross' as const,
            footageId: 'f1',
            pts: at,
            unsure: 0,
            note: '',
            crossId: 'mine',
            part: i === 0 ? ('committed' as const) : ('landing' as const),
          },
        })),
      ]);
      return analyse(review, clocks()).crosses;
    };
    expect(markedAs(found, crossesOf(2, []))?.id).toBe('mine');
    expect(markedAs(found, crossesOf(3, [150, 250]))?.id).toBe('mine');
    expect(markedAs(found, crossesOf(3, [400, 450]))).toBeNull();
  });
});

describe('what the ground says of a cross', () => {
  it('is told in words that fit what is marked', () => {
    const step = (foot: 'left' | 'right') => ({ at: 1, foot, x: 0, y: 0, heading: null });
    const { stepsTold, gapTold, supportTold } = aroundCrossWords;
    expect(stepsTold([])).toBe('no foot is marked from cue to landing');
    expect(stepsTold([step('left')])).toBe('1 step of the left foot; the other foot is not marked');
    expect(stepsTold([step('left'), step('right')])).toBe('2 steps: left, right');
    const metres = { value: 1.2, plusMinus: 0.3, unit: 'm' as const };
    expect(gapTold({ as: 'least', at: 1, metres }, '1.00')).toBe(
      '1.2 m ± 0.3 to the dog’s way at the least, at 1.00 s',
    );
    expect(gapTold({ as: 'least', at: 1, metres: { ...metres, value: 0.2 } }, '1.00')).toMatch(/perhaps on/);
    expect(supportTold('committed', 'committed', null)).toMatch(/not marked$/);
    expect(supportTold('in', 'takeOff', '1.2 m ± 0.3')).toMatch(/took off or went in$/);
  });
});
