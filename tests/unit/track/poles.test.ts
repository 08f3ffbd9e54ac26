import { describe, expect, it } from 'vitest';
import { lengthBetween, waysOf } from '../../../src/track/figures.ts';
import { swing, weavesOf } from '../../../src/track/poles.ts';
import { lineThrough, readingsOf } from './lines.ts';
import { taken } from './taken.ts';

const weave = (from: number, to: number, more: Parameters<typeof taken>[3] = {}) =>
  taken(7, from, to, { kind: 'weavePoles', ...more });

describe('times between weave poles', () => {
  it('are from entry to exit, in the order of time', () => {
    const found = weavesOf([weave(9, 11.5), weave(2, 4.5)]);
    expect(found.map((w) => [w.from, w.to])).toEqual([
      [2, 4.5],
      [9, 11.5],
    ]);
  });

  it('are none where a mark is missing, stands for both, comes too late or out of order, or it is no set of poles', () => {
    const odd = [
      weave(2, 4, { in: null }),
      weave(2, 4, { out: null }),
      weave(2, 4, { single: true }),
      weave(2, 40),
      weave(4, 2),
      weave(2, 4, { kind: 'tunnel' }),
    ];
    expect(weavesOf(odd)).toEqual([]);
  });
});

describe('the way between poles', () => {
  // 60 cm from pole to pole: she is on the same side again after 1.2 m.
  const swung = (aside: number) => (t: number) => ({
    x: 2.75 * t,
    y: aside * Math.sin((2 * Math.PI * 2.75 * t) / 1.2 + 0.7),
  });
  const arc = (aside: number): number => {
    const way = swung(aside);
    let long = 0;
    for (let t = 0.4; t < 2.8; t += 1e-4) {
      const [a, b] = [way(t), way(t + 1e-4)];
      long += Math.hypot(b.x - a.x, b.y - a.y);
    }
    return long;
  };
  // One mark for two poles: every one of them shows her at the same side.
  const marked = (aside: number, weaves: { from: number; to: number }[]) => {
    const line = lineThrough({ readings: readingsOf(swung(aside), 0, 3.2, 1.2 / 2.75), push: 1, weaves });
    const length = lengthBetween(waysOf(line, 1), 0.4, 2.8);
    if (!length) throw new Error('no length');
    return length;
  };

  it.each([0.05, 0.1, 0.15])('has its true length within the plus or minus: %s m to either side', (aside) => {
    const { value, plusMinus } = marked(aside, [{ from: 0.4, to: 2.8 }]);
    expect(Math.abs(value - arc(aside))).toBeLessThanOrEqual(plusMinus);
    expect(plusMinus).toBeLessThan(0.1 * value);
  });

  it('is missed by marks at one side of her alone', () => {
    const { value, plusMinus } = marked(0.1, []);
    expect(arc(0.1) - value).toBeGreaterThan(plusMinus);
  });

  it('is longer than the smoothed line by what swings of 5 to 15 cm make of it (worked by hand)', () => {
    // (π · 0.05 / 1.2)² = 0.01713, (π · 0.15 / 1.2)² = 0.15421.
    expect(swing.longer).toBeCloseTo(0.08567, 4);
    expect(swing.plusMinus).toBeCloseTo(0.06854, 4);
  });
});
