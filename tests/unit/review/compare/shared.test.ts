import { describe, expect, it } from 'vitest';
import type { ObstacleKind } from '../../../../src/course/kinds.ts';
import { analyse } from '../../../../src/review/analyse.ts';
import { timesByKind } from '../../../../src/review/compare/byKind.ts';
import { speedsByTurn } from '../../../../src/review/compare/byTurn.ts';
import { heldAt } from '../../../../src/review/compare/lock.ts';
import type { Mark } from '../../../../src/review/marks.ts';
import type { Quantity } from '../../../../src/time/quantity.ts';
import { realLine } from '../../../../src/track/realLine.ts';
import type { LineReading } from '../../../../src/track/readings.ts';
import { courseOf, review, steadyClocks, took } from '../example.ts';

const rate = 100;
const run = (kinds: readonly ObstacleKind[], edges: readonly (readonly [number, number])[]) => {
  const marks = edges.flatMap((e, i): Mark[] => [took(i + 1, 'in', e[0]), took(i + 1, 'out', e[1])]);
  return analyse(review(courseOf(...kinds), marks), steadyClocks(rate));
};

describe('what runs of different courses share', () => {
  it('is the mean time on each kind that two of them took, by hand', () => {
    const a = run(
      ['barJump', 'tunnel', 'barJump', 'weavePoles'],
      [
        [100, 150],
        [200, 300],
        [400, 460],
        [500, 800],
      ],
    );
    const b = run(
      ['tunnel', 'barJump'],
      [
        [100, 180],
        [300, 340],
      ],
    );
    const rows = timesByKind([a, b]);
    expect(rows.map((r) => [r.kind, ...r.runs.map((k) => k?.count)])).toEqual([
      ['barJump', 2, 1],
      ['tunnel', 1, 1],
    ]);
    // Take-off is last seen, landing first seen: a jump lasts a frame less than from mark to mark.
    expect(rows[0]?.runs[0]?.mean.value).toBeCloseTo((0.49 + 0.59) / 2, 9);
    expect(rows[0]?.runs[0]?.mean.plusMinus).toBeCloseTo(0.01, 9);
    expect(rows[1]?.runs[0]?.mean.value).toBeCloseTo(1, 9);
  });

  it('is nothing where nothing is marked, of unknown kind, or runs backwards', () => {
    const unknown = run(['unknown'], [[100, 200]]);
    const backwards = run(['tunnel'], [[200, 100]]);
    expect(timesByKind([unknown, unknown])).toEqual([]);
    expect(timesByKind([backwards, backwards])).toEqual([]);
    expect(timesByKind([])).toEqual([]);
  });

  it('is the speed by how far the line turns, where lines are measured', () => {
    // Straight on at 5 m/s for two seconds, a half circle of 2 m radius at 4 m/s, straight back.
    const half = (Math.PI * 2) / 4;
    const readings = Array.from({ length: 120 }, (_, i): LineReading => {
      const at = 1 + (i * (4 + half)) / 119;
      const t = at - 1;
      const arc = Math.max(0, Math.min(half, t - 2)) * 2;
      const [x, y] =
        t < 2
          ? [5 * t, 0]
          : t < 2 + half
            ? [10 + 2 * Math.sin(arc), 2 - 2 * Math.cos(arc)]
            : [10 - 5 * (t - 2 - half), 4];
      return { at, unsure: 0, x, y, contact: 'ground', spread: [1e-4, 0, 1e-4], byFit: [[], []] };
    });
    const line = realLine({ who: 'dog', readings });
    if (!line) throw new Error('no line');
    const jump = (out: number): readonly [number, number] => [
      Math.round(out * rate) - 5,
      Math.round(out * rate),
    ];
    const analysis = run(
      ['barJump', 'barJump', 'barJump', 'barJump'],
      [jump(1.2), jump(2.9), jump(3.1 + half), jump(4.6 + half)],
    );
    const m = (value: number): Quantity => ({ value, plusMinus: 0.1, unit: 'm' });
    const measured = {
      analysis,
      line,
      lengths: new Map([
        [2, m(8.5)],
        [3, m(7.3)],
        [4, m(7.5)],
      ]),
    };
    const rows = speedsByTurn([measured, measured, null]);
    expect(rows.map((r) => [r.turn, ...r.runs.map((s) => s?.stretches ?? null)])).toEqual([
      ['straight', 2, 2, null],
      ['back', 1, 1, null],
    ]);
    expect(rows[0]?.runs[0]?.speed.value).toBeCloseTo(16 / 3.2, 2);
    expect(rows[1]?.runs[0]?.speed.value).toBeCloseTo(7.3 / (0.2 + half), 1);
    expect(speedsByTurn([measured, null])).toEqual([]);
  });
});

describe('the lock', () => {
  const four: readonly (readonly [number, number])[] = [
    [100, 150],
    [300, 350],
  ];
  const beside = (analysis: ReturnType<typeof run>) => ({ analysis, lengths: new Map<number, Quantity>() });
  it('on a common clock counts from the start of both, or from the first out that both have', () => {
    const a = beside(run(['barJump', 'barJump'], four));
    const b = beside(run(['barJump', 'barJump'], [four[1] ?? [0, 0], [500, 550]]));
    expect(heldAt('clock', 2, a, b)).toBeCloseTo(4, 9);
    expect(heldAt('clock', 4, b, a)).toBeCloseTo(2, 9);
    const noClock = beside({ ...b.analysis, clock: null });
    expect(heldAt('clock', 2, a, noClock)).toBeCloseTo(4, 9);
    expect(heldAt('clock', 2, a, beside(run([], [])))).toBeNull();
    expect(heldAt('place', 2, a, beside(run([], [])))).toBeNull();
  });
});
