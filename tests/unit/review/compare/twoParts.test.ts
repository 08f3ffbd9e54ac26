import { describe, expect, it } from 'vitest';
import { partsTogether, twoParts, type StretchRun } from '../../../../src/review/compare/twoParts.ts';
import type { Bracket } from '../../../../src/time/bracket.ts';
import { runSeconds } from '../../../../src/time/units.ts';
import { bells } from '../../../../src/track/draws.ts';

const edge = (at: number, half = 0): Bracket => ({ from: runSeconds(at - half), to: runSeconds(at + half) });
const stretch = (from: number, to: number, metres: number | null, half = 0, band = 0): StretchRun => ({
  from: edge(from, half),
  to: edge(to, half),
  length: metres === null ? null : { value: metres, plusMinus: band, unit: 'm' },
});

describe('time between two runs of a stretch', () => {
  it('is exactly two parts, by hand', () => {
    // A: 6 m in 1.2 s (5 m/s). B: 7 m in 1.75 s (4 m/s). Longer way: 1 m at 0.225 s/m. Slower: 0.05 s/m on 6.5 m.
    const parts = twoParts(stretch(0, 1.2, 6), stretch(10, 11.75, 7));
    expect(parts.difference.value).toBeCloseTo(0.55, 12);
    expect(parts.distance?.value).toBeCloseTo(0.225, 12);
    expect(parts.speed?.value).toBeCloseTo(0.325, 12);
  });

  it('leaves no remainder to 1e-9, whatever was run', () => {
    const bell = bells(7);
    for (let i = 0; i < 1000; i++) {
      const any = (): StretchRun =>
        stretch(100 * bell(), 1000 + 100 * bell(), 5 + Math.abs(3 * bell()), 0.02, 0.1);
      const { difference, distance, speed } = twoParts(any(), any());
      expect((distance?.value ?? NaN) + (speed?.value ?? NaN)).toBeCloseTo(difference.value, 9);
    }
  });

  it('is not parted where a line is missing, nor where it has no speed', () => {
    const good = stretch(0, 1, 5);
    for (const bad of [
      stretch(0, 1, null),
      stretch(0, 1, 0),
      stretch(1, 1, 5),
      stretch(2, 1, 5),
      stretch(0, 1, NaN),
    ]) {
      const { difference, distance, speed } = twoParts(good, bad);
      expect(Number.isFinite(difference.value)).toBe(true);
      expect([distance, speed]).toEqual([null, null]);
      expect(twoParts(bad, good).speed).toBeNull();
    }
  });

  it('has bands that hold what 20,000 draws of its figures make of it', () => {
    const a = stretch(0, 1.2, 6, 0.02, 0.2);
    const b = stretch(10, 11.75, 7, 0.01, 0.3);
    const { distance, speed } = twoParts(a, b);
    const bell = bells(3);
    let held = 0;
    const draws = 20_000;
    for (let i = 0; i < draws; i++) {
      const moved = (s: StretchRun, half: number, band: number): StretchRun => {
        // Within a frame any moment is as likely; a length lies within its band 95 times of 100.
        const even = (): number => half * (2 * ((Math.abs(bell()) * 1e6) % 1) - 1);
        const length = (s.length?.value ?? NaN) + (band / 1.96) * bell();
        return stretch((s.from.from + s.from.to) / 2 + even(), (s.to.from + s.to.to) / 2 + even(), length);
      };
      const drawn = twoParts(moved(a, 0.02, 0.2), moved(b, 0.01, 0.3));
      const within = (x: typeof distance, of: typeof distance): boolean =>
        Math.abs((x?.value ?? NaN) - (of?.value ?? NaN)) <= (of?.plusMinus ?? NaN);
      if (within(drawn.distance, distance) && within(drawn.speed, speed)) held++;
    }
    expect(held / draws).toBeGreaterThan(0.95);
  });
});

describe('stretches together', () => {
  const run = (outs: readonly number[], metres: readonly number[], half: number, band = 0): StretchRun[] =>
    metres.map((m, i) => stretch(outs[i] ?? NaN, outs[i + 1] ?? NaN, m, half, band));
  const pairs = (a: StretchRun[], b: StretchRun[]): [StretchRun, StretchRun][] =>
    a.flatMap((s, i) => (b[i] ? [[s, b[i]] as [StretchRun, StretchRun]] : []));

  it('are the sums of their parts; an edge in the middle of a run is not counted twice', () => {
    const a = run([0, 1, 2, 3], [5, 5, 6], 0.02);
    const b = run([0, 1.5, 2.5, 4], [6, 5, 7], 0.02);
    const each = pairs(a, b).map(([x, y]) => twoParts(x, y));
    const all = partsTogether(pairs(a, b));
    const sum = (of: (p: (typeof each)[number]) => number | undefined): number =>
      each.reduce((s, p) => s + (of(p) ?? NaN), 0);
    expect(all?.distance?.value).toBeCloseTo(
      sum((p) => p.distance?.value),
      9,
    );
    expect(all?.speed?.value).toBeCloseTo(
      sum((p) => p.speed?.value),
      9,
    );
    expect(all?.difference.value).toBeCloseTo(1, 9);
    // First and last edge of either run, 0.02 s each; the stretches one by one would add up to 0.24 s.
    expect(all?.difference.plusMinus).toBeCloseTo(0.08, 9);
    expect(sum((p) => p.difference.plusMinus)).toBeCloseTo(0.24, 9);
    expect(all?.speed?.plusMinus).toBeLessThan(sum((p) => p.speed?.plusMinus));
  });

  it('are withheld where one line is missing, and none is nothing', () => {
    const a = run([0, 1, 2], [5, 5], 0.02);
    const b = [stretch(0, 1, 5), stretch(1, 2, null)];
    expect(partsTogether(pairs(a, b))).toMatchObject({ distance: null, speed: null, measured: 1 });
    expect(partsTogether([])).toBeNull();
  });

  it('take both edges of a gap between stretches that do not follow on each other', () => {
    const a = [stretch(0, 1, 5, 0.02), stretch(2, 3, 5, 0.02)];
    expect(partsTogether(pairs(a, a))?.difference.plusMinus).toBeCloseTo(0.16, 9);
  });
});
