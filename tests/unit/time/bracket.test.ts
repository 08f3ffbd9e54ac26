import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bracketOf,
  frameSpanOf,
  hull,
  middle,
  runTimeAt,
  type ClipClock,
} from '../../../src/time/bracket.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { against, timeBetween } from '../../../src/time/quantity.ts';
import { pts, runSeconds } from '../../../src/time/units.ts';

/** 30 frames a second in ticks of 1/30 s. */
const steady: ClipClock = {
  table: frameTable(
    { num: 1, den: 30 },
    Array.from({ length: 100 }, (_, i) => i),
  ),
  speed: [],
  offset: 0,
  rate: 1,
};

const variable = fc
  .array(fc.integer({ min: 1, max: 90 }), { minLength: 3, maxLength: 60 })
  .map((gaps): ClipClock => {
    let at = -40;
    const ticks = gaps.map((g) => (at += g));
    return { table: frameTable({ num: 1, den: 600 }, ticks), speed: [], offset: 2, rate: 1 };
  });

describe('a mark is a bracket', () => {
  it('puts a first-seen event between the frame before and this one', () => {
    const b = bracketOf(steady, pts(10), 'first');
    expect([b.from, b.to]).toEqual([9 / 30, 10 / 30]);
  });

  it('puts a last-seen event between this frame and the next', () => {
    const b = bracketOf(steady, pts(10), 'last');
    expect([b.from, b.to]).toEqual([10 / 30, 11 / 30]);
  });

  it('allows both where the kind of obstacle is not known', () => {
    expect(frameSpanOf(steady.table, pts(10), 'either')).toEqual({ from: 9, to: 11 });
  });

  it('widens both ways by the frames that are unsure', () => {
    expect(frameSpanOf(steady.table, pts(10), 'first', 2)).toEqual({ from: 7, to: 12 });
    expect(frameSpanOf(steady.table, pts(10), 'last', 1)).toEqual({ from: 9, to: 12 });
  });

  it('is less sure of a mark that lies between frames', () => {
    const table = frameTable({ num: 1, den: 30 }, [0, 10, 20, 30]);
    expect(frameSpanOf(table, pts(14), 'first')).toEqual({ from: -1, to: 2 });
  });

  it('has a bracket on the first and the last frame, and on a single one', () => {
    expect(bracketOf(steady, pts(0), 'first').from).toBeCloseTo(-1 / 30);
    expect(bracketOf(steady, pts(99), 'last').to).toBeCloseTo(100 / 30);
    const single: ClipClock = { ...steady, table: frameTable({ num: 1, den: 25 }, [7]) };
    expect(bracketOf(single, pts(7), 'first').to - bracketOf(single, pts(7), 'first').from).toBeCloseTo(1);
  });

  it('refuses an unsure that is no count of frames', () => {
    for (const bad of [-1, 0.5, NaN, Infinity])
      expect(() => frameSpanOf(steady.table, pts(1), 'first', bad)).toThrow(RangeError);
  });

  it('holds the event whose frame was marked, on any frame times', () => {
    fc.assert(
      fc.property(
        variable,
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        fc.boolean(),
        (clock, share, first) => {
          const { table } = clock;
          const start = table.pts[0] ?? 0;
          const end = table.pts.at(-1) ?? 0;
          const event = start + share * (end - start);
          const last = table.pts.findLastIndex((t) => t <= event);
          const marked = first ? table.pts.findIndex((t) => t >= event) : last;
          const at = table.pts[marked];
          if (at === undefined) return;
          const b = bracketOf(clock, at, first ? 'first' : 'last');
          const truth = 2 + event / 600;
          expect(b.from).toBeLessThanOrEqual(truth + 1e-9);
          expect(b.to).toBeGreaterThanOrEqual(truth - 1e-9);
        },
      ),
    );
  });

  it('holds the event when the mark is off by one frame and says so', () => {
    fc.assert(
      fc.property(
        variable,
        fc.nat(),
        fc.constantFrom(-1, 1),
        fc.constantFrom('first' as const, 'last' as const),
        (clock, n, off, seen) => {
          const count = clock.table.pts.length;
          const right = n % count;
          const marked = Math.min(count - 1, Math.max(0, right + off));
          const truth = frameSpanOf(clock.table, clock.table.pts[right] ?? pts(0), seen);
          const told = frameSpanOf(clock.table, clock.table.pts[marked] ?? pts(0), seen, 1);
          expect(told.from).toBeLessThanOrEqual(truth.from);
          expect(told.to).toBeGreaterThanOrEqual(truth.to);
        },
      ),
    );
  });
});

describe('differences', () => {
  it('are the difference of the middles, plus or minus half the sum of the widths', () => {
    const a = { from: runSeconds(1), to: runSeconds(1.2) };
    const b = { from: runSeconds(2), to: runSeconds(2.1) };
    const q = timeBetween(a, b);
    expect(q.value).toBeCloseTo(0.95, 12);
    expect(q.plusMinus).toBeCloseTo(0.15, 12);
    expect(q.unit).toBe('s');
  });

  it('take every value between the ends and no other', () => {
    const end = fc.double({ min: -100, max: 100, noNaN: true });
    fc.assert(
      fc.property(end, end, end, end, (a, b, c, d) => {
        const x = { from: runSeconds(Math.min(a, b)), to: runSeconds(Math.max(a, b)) };
        const y = { from: runSeconds(Math.min(c, d)), to: runSeconds(Math.max(c, d)) };
        const q = timeBetween(x, y);
        expect(q.value - q.plusMinus).toBeCloseTo(y.from - x.to, 9);
        expect(q.value + q.plusMinus).toBeCloseTo(y.to - x.from, 9);
      }),
    );
  });

  it('stand to a threshold only where the whole range does', () => {
    const q = { value: 0.1, plusMinus: 0.05, unit: 's' as const };
    expect(against(q, 0)).toBe('above');
    expect(against(q, 0.2)).toBe('below');
    expect(against(q, 0.12)).toBe('open');
    expect(against(q, 0.05)).toBe('open');
  });

  it('know the hull and the middle', () => {
    const h = hull({ from: runSeconds(1), to: runSeconds(2) }, { from: runSeconds(1.5), to: runSeconds(4) });
    expect(h).toEqual({ from: 1, to: 4 });
    expect(middle(h)).toBe(2.5);
  });
});

describe('the clock of the run', () => {
  it('adds the offset and the rate of the clip', () => {
    const clock: ClipClock = { ...steady, offset: 5, rate: 1.001 };
    expect(runTimeAt(clock, pts(30))).toBeCloseTo(6.001, 12);
  });

  it('turns slow motion into real seconds: eight file seconds of 240 fps stored at 30 are one', () => {
    const clock: ClipClock = { ...steady, speed: [{ from: 0, speed: 0.125 }] };
    expect(runTimeAt(clock, pts(30))).toBeCloseTo(0.125, 12);
  });

  it('is continuous over a ramp', () => {
    const speed = [
      { from: 0, speed: 1 },
      { from: 1, speed: 0.25 },
      { from: 2, speed: 1 },
    ];
    const clock: ClipClock = { ...steady, speed };
    expect(runTimeAt(clock, pts(30))).toBeCloseTo(1, 12);
    expect(runTimeAt(clock, pts(60))).toBeCloseTo(1.25, 12);
    expect(runTimeAt(clock, pts(90))).toBeCloseTo(2.25, 12);
  });
});
