import { describe, expect, it } from 'vitest';
import type { PlannedCross } from '../../../src/plan/plan.ts';
import { crossesFound, type TakenAt } from '../../../src/track/crossesFound.ts';
import { pathsCrossed, type Pair } from '../../../src/track/pairs.ts';
import type { LineReading } from '../../../src/track/readings.ts';
import { realLine } from '../../../src/track/realLine.ts';
import { crossedSentence } from '../../../src/words/realLineSentences.ts';

/** Marked every fifth of a second from 0 to 6 s, but not within `without`. */
function line(
  who: 'dog' | 'handler',
  at: (t: number) => readonly [number, number],
  without?: [number, number],
) {
  const readings = Array.from({ length: 31 }, (_, i): LineReading => {
    const [x, y] = at(i / 5);
    return { contact: 'ground', at: i / 5, x, y, spread: [1e-4, 0, 1e-4] };
  }).filter((r) => !without || r.at <= without[0] || r.at >= without[1]);
  const made = realLine({ who, readings, step: 0.05 });
  if (!made) throw new Error('no line');
  return made;
}

/** The dog runs along x with 5 m/s; the handler goes up across her way at x = 15, where the dog is at 3 s, with 2 m/s. */
const crossing = (when: number, dogWithout?: [number, number]): Pair => ({
  dog: line('dog', (t) => [5 * t, 0], dogWithout),
  handler: line('handler', (t) => [15, 2 * (t - when)]),
});

const taken: readonly TakenAt[] = [
  { place: 1, in: 1, out: 1.4 },
  { place: 2, in: 2.4, out: 2.8 },
  { place: 3, in: 3.6, out: 4.1 },
];
const planned = (more: Partial<PlannedCross>): PlannedCross => ({
  id: 'p',
  place: 2,
  kind: 'front',
  reason: '',
  ...more,
});
const found = (pair: Pair, plans: readonly PlannedCross[] = [], of = taken) =>
  crossesFound(pair, pathsCrossed(pair), of, plans);

describe('crosses by the two paths', () => {
  it('before the dog is a cross at the obstacle that she took last, finished where the handler is clear of her way', () => {
    const [one, ...more] = found(crossing(1.6));
    expect(more).toEqual([]);
    expect(one).toMatchObject({ place: 2, kind: 'front', kindOpen: true, plannedId: null });
    expect(one?.crossed.handlerAt.value).toBeCloseTo(1.6, 1);
    // 0.4 m at 2 m/s take a fifth of a second.
    expect(one?.finished.value).toBeCloseTo(1.8, 1);
  });

  it('behind the dog is a rear cross at the obstacle that she was at then', () => {
    expect(found(crossing(3.9))).toMatchObject([{ place: 3, kind: 'rear', kindOpen: false }]);
    // Between two: nearer to 3 in time, and at 2 where the plan has it there.
    const far = [
      { place: 2, in: 2.4, out: 2.8 },
      { place: 3, in: 4.1, out: 4.5 },
    ];
    expect(found(crossing(3.6), [], far)).toMatchObject([{ place: 3, kind: 'rear' }]);
    expect(found(crossing(3.6), [planned({ kind: 'rear' })], far)).toMatchObject([
      { place: 2, kind: 'rear', plannedId: 'p' },
    ]);
  });

  it('takes the kind from the plan where that is what happened, the second choice too, and from nowhere else', () => {
    expect(found(crossing(1.6), [planned({ kind: 'blind' })])).toMatchObject([
      { kind: 'blind', plannedId: 'p' },
    ]);
    expect(found(crossing(1.6), [planned({ kind: 'rear', secondChoice: 'blind' })])).toMatchObject([
      { kind: 'blind', plannedId: 'p' },
    ]);
    expect(found(crossing(1.6), [planned({ kind: 'rear' })])).toMatchObject([
      { kind: 'front', plannedId: null },
    ]);
  });

  it('are not proposed where time or order cannot be told, nor where nothing is taken', () => {
    expect(found(crossing(3))).toEqual([]);
    expect(found(crossing(1.6), [], [])).toEqual([]);
    // The dog is not marked from before the handler crossed to after.
    expect(found(crossing(2.6, [1.6, 4.4]))).toEqual([]);
  });

  it('are told and proposed where the whole time in which the dog was not marked lies before', () => {
    const pair = crossing(4.6, [2.2, 3.8]);
    const [one] = found(pair, [], [...taken, { place: 4, in: 4.5, out: 4.9 }]);
    expect(one).toMatchObject({ place: 4, kind: 'rear' });
    expect(one && crossedSentence(one.crossed, (t) => t.toFixed(1))).toMatch(
      /^About 4\.6 s ± 0\.\d\d, to the dog’s left, behind the dog\. The dog is not marked from 2\.2 to 3\.8 s\.$/,
    );
  });
});
