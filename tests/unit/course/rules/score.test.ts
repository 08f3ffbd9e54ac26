import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fci2023 } from '../../../../src/course/rules/fci2023.ts';
import { hundredths, inUnits, quotientTo } from '../../../../src/course/rules/hundredths.ts';
import { rank } from '../../../../src/course/rules/ranking.ts';
import type { ScoreEvent } from '../../../../src/course/rules/score.ts';
import { book, knockDowns, ours, refusals, score, scored } from './books.ts';

const called = (why: Extract<ScoreEvent, { kind: 'elimination' }>['why'], place?: number): ScoreEvent =>
  place === undefined ? { kind: 'elimination', why } : { kind: 'elimination', why, place };

describe('hundredths', () => {
  test('keep what floating point would lose', () => {
    // 0.1 + 0.2 in doubles is not 0.3; 68.17 - 65 is not 3.17.
    expect(68.17 - 65).not.toBe(3.17);
    expect(inUnits(scored(fci2023, { time: 68.17 }).timeFaults)).toBe(3.17);
    for (const s of [0.29, 1.13, 4.35, 16.4, 34.19, 1005.55]) expect(inUnits(hundredths(s))).toBe(s);
  });

  test.each([NaN, Infinity, -Infinity, -0.01, 1e9])('refuse %d as a time', (t) => {
    expect(() => hundredths(t)).toThrow(RangeError);
  });

  test('a quotient lies within one unit of the real one, on the side that was asked for', () => {
    const whole = (most: number) => fc.integer({ min: 1, max: most });
    fc.assert(
      fc.property(whole(1e9), whole(1e4), whole(1000), (dividend, divisor, unit) => {
        const real = dividend / divisor;
        const to = (way: 'down' | 'nearest' | 'up') => quotientTo(dividend, divisor, unit, way);
        const [down, near, up] = [to('down'), to('nearest'), to('up')] as const;
        for (const q of [down, near, up]) expect(q % unit).toBe(0);
        expect(down).toBeLessThanOrEqual(real + 1e-6);
        expect(up).toBeGreaterThanOrEqual(real - 1e-6);
        expect(up - down).toBeLessThanOrEqual(unit);
        expect(Math.abs(near - real)).toBeLessThanOrEqual(unit / 2 + 1e-6);
      }),
    );
  });
});

describe('a refusal is counted once', () => {
  const ranPast: ScoreEvent = { kind: 'refusal', how: 'ranBy', place: 4, approach: 1 };

  test('a run-out that was also marked as a stop on the same approach is one refusal', () => {
    const s = scored(fci2023, { events: [ranPast, { ...ranPast, how: 'stopped' }] });
    expect(s.refusals).toBe(1);
    expect(inUnits(s.courseFaults)).toBe(5);
    expect(s.notCounted).toMatchObject([{ because: 'toldTwice' }]);
  });

  test('a second approach, or another obstacle, is another one', () => {
    expect(scored(fci2023, { events: [ranPast, { ...ranPast, approach: 2 }] }).refusals).toBe(2);
    expect(scored(fci2023, { events: [ranPast, { ...ranPast, place: 5 }] }).refusals).toBe(2);
  });

  test('the obstacle of the last refusal is named', () => {
    const events = [2, 4, 9].map((place): ScoreEvent => ({
      kind: 'refusal',
      how: 'stopped',
      place,
      approach: 1,
    }));
    expect(score(fci2023, { events })).toMatchObject({
      outcome: 'eliminated',
      because: [{ why: 'refusals', place: 9, rule: { name: 'scoring.lastRefusal' } }],
    });
  });

  test('a kind that the book does not know as a refusal does not count', () => {
    const other = book({
      scoring: {
        faults: { refusal: { value: 5, source: ours } },
        refusals: { value: ['stopped'], source: ours },
      },
    });
    const s = scored(other, { events: refusals('ranBy', 'stopped'), time: 60 });
    expect(s.refusals).toBe(1);
    expect(s.notCounted).toMatchObject([{ because: 'notInBook' }]);
  });
});

describe('what ends a run', () => {
  test('every reason of the list, with its obstacle', () => {
    const listed = fci2023.scoring.eliminations?.value ?? [];
    expect(listed).toHaveLength(12);
    for (const why of listed)
      expect(score(fci2023, { events: [called(why, 7)] })).toMatchObject({
        outcome: 'eliminated',
        because: [{ why, place: 7 }],
      });
  });

  test('time over the maximum does, time at the maximum does not', () => {
    expect(score(fci2023, { time: 130, maximum: 130 }).outcome).toBe('scored');
    expect(score(fci2023, { time: 130.01, maximum: 130 })).toMatchObject({
      outcome: 'eliminated',
      because: [{ why: 'overMaximumTime' }],
    });
  });

  test('without a maximum nobody can say, and the score says so', () => {
    expect(score(fci2023, { time: 500, maximum: null })).toMatchObject({
      outcome: 'scored',
      maximumUnknown: true,
    });
  });

  test('a reason that is not in the book is noted and ends nothing', () => {
    expect(score(fci2023, { events: [called('own:barked')] })).toMatchObject({
      outcome: 'scored',
      notCounted: [{ because: 'notInBook' }],
    });
    const strict = book({ scoring: { eliminations: { value: ['own:barked'], source: ours } } });
    expect(score(strict, { events: [called('own:barked')] }).outcome).toBe('eliminated');
  });
});

describe('trial, class and training', () => {
  test.each([
    ['trial', 'eliminated'],
    ['class', 'scored'],
    ['training', 'scored'],
  ] as const)('a toy in the hand and a second set-up in a %s: %s', (run, outcome) => {
    const events = [called('objectInHand'), called('restarted')];
    const s = score(fci2023, { run, events });
    expect(s.outcome).toBe(outcome);
    expect(s.notCounted.map((n) => n.because)).toEqual(outcome === 'scored' ? ['runKind', 'runKind'] : []);
  });

  test('the wrong order ends a run of any kind; three refusals end no training', () => {
    for (const run of ['trial', 'class', 'training'] as const)
      expect(score(fci2023, { run, events: [called('wrongOrder')] }).outcome).toBe('eliminated');
    const s = scored(fci2023, { run: 'training', events: refusals('stopped', 'stopped', 'stopped') });
    expect(inUnits(s.courseFaults)).toBe(15);
  });

  test('a class of result is given at trials alone', () => {
    expect(scored(fci2023, { run: 'trial' }).result).toMatchObject({ id: 'excellent' });
    for (const run of ['class', 'training'] as const)
      expect(scored(fci2023, { run }).result).toBe('notGiven');
  });
});

describe('beginners', () => {
  const kind = book({
    scoring: {
      faults: { refusal: { value: 5, source: ours }, knockDown: { value: 5, source: ours } },
      lastRefusal: { value: 3, source: ours },
      levels: [
        {
          value: { id: 'first', name: 'First steps', beginners: true, notCounted: ['refusal', 'timeFaults'] },
          source: ours,
        },
      ],
    },
  });

  test('what a book leaves out for them is noted, costs nothing and ends nothing', () => {
    const s = scored(kind, {
      level: 'first',
      time: 100,
      events: [...refusals('stopped', 'stopped', 'ranBy'), ...knockDowns(1)],
    });
    expect(s.refusals).toBe(0);
    expect(inUnits(s.total)).toBe(5);
    expect(s.notCounted.map((n) => n.because)).toEqual(['level', 'level', 'level']);
    expect(s.notCounted[0]?.rule?.name).toBe('scoring.levels');
  });

  test('a level that the book does not know leaves the score open', () => {
    expect(score(kind, { level: 'second' })).toMatchObject({ outcome: 'open', open: ['level'] });
  });
});

describe('what is not known stays open', () => {
  test('no time, no course time', () => {
    expect(score(fci2023, { time: null })).toMatchObject({ outcome: 'open', open: ['time'] });
    expect(score(fci2023, { standard: null })).toMatchObject({ outcome: 'open', open: ['standardTime'] });
  });

  test('a book with no entries prices nothing', () => {
    expect(score(book(), { events: knockDowns(1) })).toMatchObject({ outcome: 'open', open: ['faultRule'] });
    expect(score(book(), { time: 66 })).toMatchObject({ outcome: 'open', open: ['timeFaultRule'] });
    expect(score(book(), { time: 60 })).toMatchObject({ outcome: 'scored', total: 0, result: 'notGiven' });
  });

  test('every score says that it is unofficial', () => {
    for (const s of [score(fci2023, {}), score(fci2023, { time: null }), score(fci2023, { time: 200 })])
      expect(s.unofficial).toBe(true);
  });
});

describe('ranking', () => {
  const run = (id: string, time: number, faults = 0) => ({
    id,
    score: score(fci2023, { time, events: knockDowns(faults) }),
  });

  test('equal in every key: one place for both, and the next counts them', () => {
    const ranking = rank(fci2023, [run('D', 50), run('B', 40), run('C', 40), run('A', 39)]);
    expect(ranking).toMatchObject({ ranked: true, ties: 'equalPlaceOrRunOff' });
    expect(ranking.ranked && ranking.places.map((p) => [p.id, p.place, p.sharedBy])).toEqual([
      ['A', 1, 1],
      ['B', 2, 2],
      ['C', 2, 2],
      ['D', 4, 1],
    ]);
  });

  test('a hundredth apart is no tie', () => {
    const ranking = rank(fci2023, [run('B', 40.01), run('A', 40)]);
    expect(ranking.ranked && ranking.places.map((p) => [p.id, p.place])).toEqual([
      ['A', 1],
      ['B', 2],
    ]);
  });

  test('eliminated and open runs have no place and stand last', () => {
    const out = { id: 'X', score: score(fci2023, { events: [called('leftRing')] }) };
    const open = { id: 'Y', score: score(fci2023, { time: null }) };
    const ranking = rank(fci2023, [out, open, run('A', 80, 4)]);
    expect(ranking.ranked && ranking.places.map((p) => [p.id, p.place])).toEqual([
      ['A', 1],
      ['X', null],
      ['Y', null],
    ]);
  });

  test('a book with other keys ranks by those; one without ranks nobody', () => {
    const byTime = book({
      scoring: {
        faults: { knockDown: { value: 5, source: ours } },
        ranking: { value: { keys: ['time'], ties: 'runOff' }, source: ours },
      },
    });
    const ran = (id: string, time: number, faults: number) => ({
      id,
      score: score(byTime, { time, events: knockDowns(faults) }),
    });
    const ranking = rank(byTime, [ran('A', 41, 0), ran('B', 40, 1)]);
    expect(ranking.ranked && ranking.places.map((p) => p.id)).toEqual(['B', 'A']);
    expect(rank(book(), [])).toEqual({ ranked: false, why: 'noEntry' });
  });

  test('the places do not depend on the order in which runs come in', () => {
    const some = fc.array(fc.tuple(fc.integer({ min: 3000, max: 3005 }), fc.integer({ min: 0, max: 2 })), {
      maxLength: 12,
    });
    fc.assert(
      fc.property(some, fc.infiniteStream(fc.nat()), (list, keys) => {
        const runs = list.map(([time, faults], i) => run(`r${i}`, time / 100, faults));
        const shuffled = runs
          .map((r) => ({ r, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ r }) => r);
        const placesOf = (order: typeof runs) => {
          const ranking = rank(fci2023, order);
          return new Map(ranking.ranked ? ranking.places.map((p) => [p.id, p.place]) : []);
        };
        expect(placesOf(shuffled)).toEqual(placesOf(runs));
      }),
      { numRuns: 50 },
    );
  });
});
