import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { rootOf } from '../../../src/review/angles.ts';
import { reviewVersion, type FootageUse } from '../../../src/review/document.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import { Mark } from '../../../src/review/marks.ts';
import type { Clocks } from '../../../src/review/moments.ts';
import { readDocument } from '../../../src/review/readDocument.ts';
import { apart, onOneClock } from '../../../src/time/bracket.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBetween } from '../../../src/time/quantity.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { runSeconds } from '../../../src/time/units.ts';
import { courseOf, exampleDocument, took } from './example.ts';

const document = exampleDocument(courseOf('barJump', 'barJump'), [took(1, 'in', 10)]);

const use = (id: string, more: Partial<FootageUse> = {}): FootageUse => ({
  id,
  clipId: `clip-${id}`,
  name: `${id}.mp4`,
  speed: [],
  offset: 0,
  rate: 1,
  ...more,
});
const linedUp = (to: string, plusMinus: number): Partial<FootageUse> => ({
  lineUp: { to, by: 'sound', plusMinus },
});

/** 50 frames a second, 40 s. */
const table = frameTable(
  timeBase(1, 50),
  Array.from({ length: 2000 }, (_, i) => i),
);

/** Out of 1 on one clip, out of 2 on the other, and a cross at 2 whose cue is seen on the first. */
function review(footage: readonly FootageUse[]): { state: ReviewState; clocks: Clocks } {
  const on = (id: string, footageId: string, pts: number, more: object) =>
    Mark.parse({ id, footageId, pts, ...more });
  return {
    state: {
      id: 'r',
      header: { ...document.header },
      course: document.course,
      plan: emptyPlan(),
      footage,
      marks: [
        on('in1', 'a', 50, { kind: 'taken', place: 1, edge: 'in' }),
        on('out1', 'a', 70, { kind: 'taken', place: 1, edge: 'out' }),
        on('in2', 'b', 130, { kind: 'taken', place: 2, edge: 'in' }),
        on('out2', 'b', 150, { kind: 'taken', place: 2, edge: 'out' }),
        on('cue', 'a', 100, { kind: 'cross', crossId: 'x', part: 'cueBegins', cue: 'feet' }),
      ],
      crosses: [{ id: 'x', place: 2, kind: 'front', note: '' }],
      drawings: [],
      tracks: [],
      fits: [],
    },
    clocks: new Map(
      footage.map(({ id, offset, rate, speed }) => [id, { table, offset, rate, speed }] as const),
    ),
  };
}

describe('marks of two clips', () => {
  const one = review([use('a'), use('b', linedUp('a', 0.07))]);
  const sure = review([use('a'), use('b', linedUp('a', 0))]);

  it('are apart by the plus or minus of the line-up as well', () => {
    const wide = analyse(one.state, one.clocks).splits.find((s) => s.to === 2)?.time;
    const narrow = analyse(sure.state, sure.clocks).splits.find((s) => s.to === 2)?.time;
    expect(wide?.value).toBeCloseTo(narrow?.value ?? NaN, 12);
    expect(wide?.plusMinus).toBeCloseTo((narrow?.plusMinus ?? NaN) + 0.07, 12);
  });

  it('leave figures within one clip as they were', () => {
    const alone = review([use('a')]);
    const figure = (r: typeof one) => analyse(r.state, r.clocks).taken[0]?.on;
    expect(figure(one)).toEqual(figure(alone));
    const second = (r: typeof one) => analyse(r.state, r.clocks).taken[1]?.on;
    expect(second(one)).toEqual(second(sure));
  });

  it('widen the lead of a cross, so that the verdict may no longer tell', () => {
    const lead = (r: typeof one) => analyse(r.state, r.clocks).crosses[0]?.lead;
    expect((lead(one)?.plusMinus ?? 0) - (lead(sure)?.plusMinus ?? 0)).toBeCloseTo(0.07, 12);
    const far = review([use('a'), use('b', linedUp('a', 0.7))]);
    expect(analyse(sure.state, sure.clocks).crosses[0]?.verdict).toBe('inTime');
    expect(analyse(far.state, far.clocks).crosses[0]?.verdict).toBe('cannotTell');
    expect(analyse(one.state, one.clocks).warnings).toEqual(analyse(sure.state, sure.clocks).warnings);
  });

  it('say nothing of each other where the clips were never lined up', () => {
    const loose = review([use('a'), use('b')]);
    const told = analyse(loose.state, loose.clocks);
    expect(told.warnings).toContainEqual({ warning: 'notLinedUp', footageId: 'b', name: 'b.mp4' });
    expect(told.crosses[0]?.verdict).toBe('cannotTell');
    expect(told.splits.find((s) => s.to === 2)?.time.plusMinus).toBeGreaterThan(40);
  });
});

describe('the root of a clip', () => {
  const a = use('a');
  const b = use('b', linedUp('a', 0.05));
  const c = use('c', linedUp('b', 0.01));
  it('is reached over several line-ups, whose plus or minus add up', () => {
    expect(rootOf([a, b, c], 'c')).toEqual({ id: 'a', plusMinus: expect.closeTo(0.06, 12) as number });
    expect(rootOf([a, b, c], 'a')).toEqual({ id: 'a', plusMinus: 0 });
  });
  it('is the clip itself where what it was lined up to has gone, or the line-ups run in a circle', () => {
    expect(rootOf([a, c], 'c')).toEqual({ id: 'c', plusMinus: 0 });
    const round = [use('a', linedUp('b', 0.1)), use('b', linedUp('a', 0.1))];
    expect(rootOf(round, 'a').id).toBe('a');
    expect(rootOf(round, 'b').id).toBe('b');
    expect(rootOf([use('a', linedUp('a', 0.1))], 'a')).toEqual({ id: 'a', plusMinus: 0 });
  });
});

describe('brackets of several clips', () => {
  const seconds = fc.double({ min: 0, max: 100, noNaN: true });
  const small = fc.double({ min: 0, max: 1, noNaN: true });
  const bracket = fc.record({
    at: seconds,
    width: small,
    id: fc.constantFrom('a', 'b', 'c'),
    plusMinus: small,
  });
  it('never give a difference that is surer than their frames', () => {
    fc.assert(
      fc.property(bracket, bracket, (x, y) => {
        const [p, q] = [x, y].map(({ at, width, id }) => ({
          from: runSeconds(at),
          to: runSeconds(at + width),
          angle: { id, root: 'a', plusMinus: id === 'a' ? 0 : 0.3, length: 40 },
        }));
        if (!p || !q) return;
        const between = timeBetween(p, q);
        expect(between.plusMinus).toBeCloseTo((x.width + y.width) / 2 + apart(p, q), 9);
        const [a, b] = onOneClock([p, q]);
        // Widened one by one they allow everything that the difference allows.
        if (a && b) expect(timeBetween(a, b).plusMinus).toBeGreaterThanOrEqual(between.plusMinus - 1e-9);
      }),
    );
  });
});

describe('a review file', () => {
  it('keeps how a clip was lined up, and refuses a plus or minus that is none', () => {
    const [first] = document.footage;
    if (!first) throw new Error('the example has footage');
    const second = { ...first, id: 'second', lineUp: { to: first.id, by: 'moment', plusMinus: 0.02 } };
    const text = (footage: unknown[]) => JSON.stringify({ ...document, footage });
    const reading = readDocument(text([first, second]));
    expect(reading).toMatchObject({ ok: true, document: { footage: [{}, { lineUp: second.lineUp }] } });
    const bad = { ...second, lineUp: { ...second.lineUp, plusMinus: -1 } };
    expect(readDocument(text([first, bad]))).toMatchObject({ ok: false, code: 'badInput' });
  });

  it('of version 1 is read: its clips are not lined up', () => {
    const reading = readDocument(JSON.stringify({ ...document, version: 1 }));
    expect(reading).toEqual({ ok: true, document });
    expect(reading.ok && reading.document.version).toBe(reviewVersion);
  });
});
