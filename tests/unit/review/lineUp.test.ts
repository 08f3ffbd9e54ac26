import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rootOf } from '../../../src/review/angles.ts';
import type { FootageUse } from '../../../src/review/document.ts';
import type { Change } from '../../../src/review/entities.ts';
import {
  byMoment,
  bySound,
  linedUp,
  soundBarred,
  standingOf,
  whichStays,
} from '../../../src/review/lineUp.ts';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { pts } from '../../../src/time/units.ts';

const use = (id: string, more: Partial<FootageUse> = {}): FootageUse => ({
  id,
  clipId: `clip-${id}`,
  name: `${id}.mp4`,
  speed: [],
  offset: 0,
  rate: 1,
  ...more,
});
const to = (id: string, by: 'sound' | 'moment' = 'sound') => ({ lineUp: { to: id, by, plusMinus: 0.05 } });

const after = (footage: readonly FootageUse[], changes: readonly Change[]): FootageUse[] =>
  footage.map((f) => {
    const change = changes.find((c) => c.kind === 'footage' && c.id === f.id);
    return change?.kind === 'footage' && change.body ? change.body : f;
  });

const steady = (rate: number, frames = 40 * rate): ClipClock => ({
  table: frameTable(
    timeBase(1, rate),
    Array.from({ length: frames }, (_, i) => i),
  ),
  speed: [],
  offset: 0,
  rate: 1,
});

describe('lining two clips up', () => {
  it('puts the later clip onto the clock of the earlier one, and says how', () => {
    const footage = [use('a', { offset: 3 }), use('b')];
    expect(whichStays(footage, 'b', 'a')).toEqual({ stays: 'a', moves: 'b' });
    const sound = bySound({ offset: 2.5, rate: 1, plusMinus: 0.08 }, 20);
    const [, b] = after(footage, linedUp(footage, 'a', 'b', sound));
    expect(b).toMatchObject({ offset: 5.5, rate: 1 });
    expect(b?.lineUp).toEqual({ to: 'a', by: 'sound', plusMinus: 0.08, spacing: 20 });
  });

  it('takes those along that were lined up to the moved one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0.999, max: 1.001, noNaN: true }),
        (offset, rate) => {
          const footage = [use('a'), use('b', { offset: 1 }), use('c', { offset: 4, ...to('b') })];
          const relation = { offset, rate, plusMinus: 0.1, by: 'sound' as const };
          const [, b, c] = after(footage, linedUp(footage, 'a', 'b', relation));
          // What was 3 s apart on b's own clock still is.
          expect(((c?.offset ?? NaN) - (b?.offset ?? NaN)) / (b?.rate ?? NaN)).toBeCloseTo(3, 9);
        },
      ),
    );
  });

  it('never makes a circle', () => {
    const footage = [use('a'), use('b', to('a')), use('c', to('b'))];
    // c rests on b: asked to line b up to c, it is c that moves.
    expect(whichStays(footage, 'b', 'c')).toEqual({ stays: 'b', moves: 'c' });
    expect(whichStays(footage, 'c', 'b')).toEqual({ stays: 'b', moves: 'c' });
    const relation = { offset: 1, rate: 1, plusMinus: 0.1, by: 'moment' as const };
    const next = after(footage, linedUp(footage, 'b', 'c', relation));
    expect(next.map((f) => rootOf(next, f.id).id)).toEqual(['a', 'a', 'a']);
  });

  it('does nothing where a clip is not in the review, or is the other one', () => {
    const relation = { offset: 1, rate: 1, plusMinus: 0.1, by: 'moment' as const };
    expect(linedUp([use('a')], 'a', 'gone', relation)).toEqual([]);
    expect(linedUp([use('a')], 'a', 'a', relation)).toEqual([]);
  });

  it('says how each clip stands', () => {
    const footage = [use('a'), use('b', to('a')), use('c')];
    expect(footage.map((f) => standingOf(footage, f.id))).toEqual(['first', 'linedUp', 'loose']);
  });
});

describe('sound', () => {
  it('gives way to a moment that both clips show', () => {
    expect(soundBarred(use('a'), use('b', to('a', 'moment')))).toBe('moment');
    expect(soundBarred(use('a'), use('b', to('a', 'sound')))).toBeNull();
    expect(soundBarred(use('a'), use('b'))).toBeNull();
  });
  it('cannot place slow motion', () => {
    expect(soundBarred(use('a'), use('b', { speed: [{ from: 0, speed: 0.125 }] }))).toBe('slowMotion');
    expect(soundBarred(use('a'), use('b', { speed: [{ from: 0, speed: 1 }] }))).toBeNull();
  });
});

describe('a moment that both clips show', () => {
  it('lies within the stated plus or minus, wherever it fell between the frames', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 30, noNaN: true }),
        fc.double({ min: -4, max: 4, noNaN: true }),
        fc.constantFrom(24, 25, 30, 60, 240),
        (moment, truth, rate) => {
          // The second clip is `truth` seconds late: what a shows at t, b shows at t - truth.
          const [a, b] = [steady(50), steady(rate)];
          const first = (clock: ClipClock, t: number) => pts(Math.ceil(t * clock.table.timeBase.den));
          const relation = byMoment(
            { clock: a, pts: first(a, moment) },
            { clock: b, pts: first(b, moment - truth) },
          );
          expect(Math.abs(relation.offset - truth)).toBeLessThanOrEqual(relation.plusMinus + 1e-9);
          // Half a frame of each, and what clocks may run apart within 40 s.
          expect(relation.plusMinus).toBeLessThan((1 / 50 + 1 / rate) / 2 + 0.0041);
          expect(relation).toMatchObject({ by: 'moment', rate: 1 });
        },
      ),
    );
  });

  it('is told in capture time where a clip is slow motion', () => {
    const slow: ClipClock = { ...steady(30), speed: [{ from: 0, speed: 0.125 }] };
    const relation = byMoment({ clock: steady(50), pts: pts(100) }, { clock: slow, pts: pts(240) });
    // Frame 240 of the slow clip lies 8 s into the file, 1 s into the run.
    expect(relation.offset).toBeCloseTo(1 - 0.01 + 0.125 / 60, 9);
  });
});
