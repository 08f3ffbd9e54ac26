import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  depth,
  followedBy,
  homography,
  identity,
  inverse,
  mapped,
  type Homography,
  type Pair,
  type PlanePoint,
} from '../../../src/ground/homography.ts';

const pairsBy = (h: Homography, points: readonly PlanePoint[]): Pair[] =>
  points.map((from) => ({ from, to: mapped(h, from) ?? { x: NaN, y: NaN } }));

const square = [
  { x: 0, y: 0 },
  { x: 1, y: 0 },
  { x: 1, y: 1 },
  { x: 0, y: 1 },
];

/** Maps as a camera makes them: turned, scaled, moved, and tilted so little that the square stays before it. */
const maps = fc
  .tuple(
    fc.double({ min: -3, max: 3, noNaN: true }),
    fc.double({ min: 0.2, max: 4000, noNaN: true }),
    fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    fc.double({ min: -1e4, max: 1e4, noNaN: true }),
    fc.double({ min: -0.4, max: 0.4, noNaN: true }),
    fc.double({ min: -0.4, max: 0.4, noNaN: true }),
  )
  .map(([turn, scale, x, y, g, h]): Homography => {
    // First the tilt, then the rest: such a map can always be undone.
    const [c, s] = [scale * Math.cos(turn), scale * Math.sin(turn)];
    return [c + x * g, -s + x * h, x, s + y * g, c + y * h, y, g, h, 1];
  });

describe('homography', () => {
  it('finds any map again from four points, and takes points there and back', () => {
    fc.assert(
      fc.property(
        maps,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (h, x, y) => {
          const found = homography(pairsBy(h, square));
          if (!found) throw new Error('no map');
          const wanted = mapped(h, { x, y }) ?? { x: NaN, y: NaN };
          const got = mapped(found, { x, y }) ?? { x: NaN, y: NaN };
          const size = Math.hypot(h[0], h[3]) + Math.hypot(h[2], h[5]);
          expect(Math.hypot(got.x - wanted.x, got.y - wanted.y)).toBeLessThan(1e-8 * size);
          const back = mapped(inverse(found), got) ?? { x: NaN, y: NaN };
          expect(Math.hypot(back.x - x, back.y - y)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('spreads the error of many points: nearer to the truth than the noise of one', () => {
    const h: Homography = [30, 2, 400, -1, 20, 300, 0.01, 0.02, 1];
    const grid = Array.from({ length: 100 }, (_, i) => ({ x: (i % 10) * 2, y: Math.floor(i / 10) * 2 }));
    // Noise of half a pixel by a fixed rule, so that the test says the same every time.
    const noisy = pairsBy(h, grid).map(({ from, to }, i) => ({
      from,
      to: { x: to.x + Math.sin(i * 12.9898) * 0.5, y: to.y + Math.cos(i * 78.233) * 0.5 },
    }));
    const found = homography(noisy);
    if (!found) throw new Error('no map');
    for (const { from, to } of pairsBy(h, grid)) {
      const at = mapped(found, from) ?? { x: NaN, y: NaN };
      expect(Math.hypot(at.x - to.x, at.y - to.y)).toBeLessThan(0.35);
    }
  });

  it('is none where the points do not fix it', () => {
    const same = square.map((from) => ({ from, to: from }));
    expect(homography(same.slice(0, 3))).toBeNull();
    expect(homography([...same.slice(0, 3), ...same.slice(0, 1)])).toBeNull();
    const row = [0, 1, 2, 3].map((x) => ({ x, y: 2 * x }));
    expect(homography(row.map((from, i) => ({ from, to: square[i] ?? from })))).toBeNull();
    const three = [
      { x: 0, y: 0 },
      { x: 1, y: 1 },
      { x: 2, y: 2 },
      { x: 0, y: 5 },
    ];
    expect(homography(three.map((from, i) => ({ from, to: square[i] ?? from })))).toBeNull();
    expect(homography(square.map((to, i) => ({ from: three[i] ?? to, to })))).toBeNull();
    expect(homography(same.map((p, i) => (i === 2 ? { ...p, to: { x: NaN, y: 1 } } : p)))).toBeNull();
    expect(homography(square.map((from) => ({ from, to: { x: 1, y: 1 } })))).toBeNull();
  });

  it('knows its horizon', () => {
    const h: Homography = [1, 0, 0, 0, 1, 0, 0, -0.5, 1];
    expect(mapped(h, { x: 3, y: 2 })).toBeNull();
    expect(depth(h, { x: 0, y: 0 })).toBeGreaterThan(0);
    expect(depth(h, { x: 0, y: 3 })).toBeLessThan(0);
  });

  it('does one map after another', () => {
    const twice: Homography = [2, 0, 0, 0, 2, 0, 0, 0, 1];
    const aside: Homography = [1, 0, 5, 0, 1, 0, 0, 0, 1];
    expect(mapped(followedBy(twice, aside), { x: 1, y: 1 })).toEqual({ x: 7, y: 2 });
    expect(followedBy(twice, inverse(twice))).toEqual(identity);
  });
});
