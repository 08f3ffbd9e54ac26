import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { align, alignHead, coarserTick, frameOfTime, secondsOf } from '../../../src/frames/alignment.ts';
import { frameTable } from '../../../src/time/frameTable.ts';

const even = (count: number, from = 0, gap = 3000): number[] =>
  Array.from({ length: count }, (_, i) => from + i * gap);
const uneven = (count: number): number[] => {
  let at = 0;
  return Array.from({ length: count }, (_, i) => (at += 2400 + ((i * 7919) % 1500)));
};
const times = (ticks: readonly number[], den: number, by = 0): Float64Array =>
  Float64Array.from(ticks, (t) => t / den + by);
const table = (ticks: readonly number[], den = 90000) => frameTable({ num: 1, den }, ticks);
const starts = (ticks: readonly number[], den = 90000): Float64Array => secondsOf(table(ticks, den));
const tick = 1 / 90000;

describe('a table and the packets of a whole clip', () => {
  test('one clock: no offset', () => {
    expect(align(starts(even(50)), times(even(50), 90000), tick)?.offset).toBeCloseTo(0, 9);
  });

  test('a container that starts elsewhere is moved as a whole', () => {
    for (const by of [1.4, -0.72, 1 / 30]) {
      expect(align(starts(even(50)), times(even(50), 90000, by), tick)?.offset).toBeCloseTo(by, 9);
    }
  });

  test('Matroska rounds to milliseconds (RFC 9559): all differences agree within half of one', () => {
    const exact = uneven(200);
    const rounded = Float64Array.from(exact, (t) => Math.round((t / 90000) * 1000) / 1000);
    const tied = align(starts(exact), rounded, coarserTick(table(exact), 0.001));
    expect(tied).not.toBeNull();
    if (!tied) return;
    expect(Math.abs(tied.offset)).toBeLessThanOrEqual(0.0005);
    rounded.forEach((t, i) => expect(frameOfTime(starts(exact), tied, t)).toBe(i));
  });

  test('an edit list hides packets in front (times before zero) and behind', () => {
    const all = times(even(60, -30000), 90000);
    const tied = align(starts(even(40)), all, tick);
    expect(tied?.offset).toBeCloseTo(0, 9);
  });

  test('hidden in front on another clock: the frames begin at the first packet not before zero', () => {
    const tied = align(starts(even(45, 90000)), times(even(50, -15000), 90000), tick);
    expect(tied?.offset).toBeCloseTo(-1, 9);
  });

  test('packets never shown between frames (VP8 references) belong to no frame', () => {
    const shown = uneven(60);
    const withHidden = [...shown, ...shown.filter((_, i) => i % 10 === 3).map((t) => t - 700)].sort(
      (a, b) => a - b,
    );
    const tied = align(starts(shown), times(withHidden, 90000), tick);
    expect(tied?.offset).toBeCloseTo(0, 9);
    if (tied) expect(frameOfTime(starts(shown), tied, ((shown[3] ?? 0) - 700) / 90000)).toBe(-1);
  });

  test('several ties and nothing to tell them apart: refused', () => {
    expect(align(starts(even(40, 90000)), times(even(45, 900000), 90000), tick)).toBeNull();
  });

  test('one time that differs, too few packets, two at one time: refused', () => {
    const moved = even(50).map((t, i) => (i === 30 ? t + 40 : t));
    expect(align(starts(even(50)), times(moved, 90000), tick)).toBeNull();
    expect(align(starts(even(50)), times(even(49), 90000), tick)).toBeNull();
    const twice = [...even(50), 30000].sort((a, b) => a - b);
    expect(align(starts(even(50)), times(twice, 90000), tick)).toBeNull();
    expect(align(starts(even(5)), new Float64Array(), tick)).toBeNull();
  });

  test('whatever the gaps, the shift and the packets hidden at the ends, each frame finds its own packet', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 200, max: 9000 }), { minLength: 30, maxLength: 120 }),
        fc.integer({ min: -500000, max: 500000 }),
        fc.integer({ min: 0, max: 5 }),
        fc.integer({ min: 0, max: 5 }),
        (gaps, shift, front, back) => {
          let at = 0;
          const all = gaps.map((g) => (at += g));
          const shown = all.slice(front, all.length - back);
          const tied = align(
            starts(shown),
            times(
              all.map((t) => t + shift),
              90000,
            ),
            tick,
          );
          // Irregular gaps leave one tie only; where chance makes them fit twice, refusing is right.
          if (tied === null) return;
          shown.forEach((t, i) => {
            expect(frameOfTime(starts(shown), tied, (t + shift) / 90000)).toBe(i);
          });
        },
      ),
    );
  });
});

describe('a table and the beginning of a clip', () => {
  const long = even(5000);

  test('one clock, and one clock with packets hidden before zero', () => {
    expect(alignHead(starts(long), times(even(80), 90000), tick)).toMatchObject({ asIs: true });
    expect(alignHead(starts(long), times(even(80, -30000), 90000), tick)).toMatchObject({ asIs: true });
  });

  test('a copy moved by whole frames is not taken for the clip as it is', () => {
    // The copy starts at 0, the table at the time of the copy's second frame: as it is, each frame would be its neighbour.
    const tied = alignHead(starts(even(5000, 3000)), times(even(80), 90000), tick);
    expect(tied).toMatchObject({ asIs: false });
    expect(tied?.offset).toBeCloseTo(-1 / 30, 9);
    const late = alignHead(starts(even(5000, 133200), 90000), times(even(80), 90000), tick);
    expect(late?.offset).toBeCloseTo(-1.48, 9);
  });

  test('anything else is left to the whole list', () => {
    const extra = [...even(80), 4500].sort((a, b) => a - b);
    expect(alignHead(starts(even(5000, 90000)), times(extra, 90000), tick)).toBeNull();
    expect(alignHead(starts(uneven(5000)), times(even(80), 90000), tick)).toBeNull();
    expect(alignHead(starts(long), new Float64Array(), tick)).toBeNull();
  });
});

describe('the frame of a packet', () => {
  test('is never a neighbour: further off than rounding explains, there is none', () => {
    const s = starts(even(100));
    const tied = { offset: 0.5, reach: tick / 2 };
    expect(frameOfTime(s, tied, 0.5 + 10 / 30)).toBe(10);
    expect(frameOfTime(s, tied, 0.5 + 10 / 30 + tick)).toBe(-1);
    expect(frameOfTime(s, tied, 0.4)).toBe(-1);
    expect(frameOfTime(s, tied, 99)).toBe(-1);
    expect(frameOfTime(s, tied, NaN)).toBe(-1);
  });
});
