import { describe, expect, it } from 'vitest';
import { homography, inverse, mapped, type Pair } from '../../../src/ground/homography.ts';

const pairs = (
  from: readonly (readonly [number, number])[],
  to: readonly (readonly [number, number])[],
): Pair[] =>
  from.map(([x, y], i) => ({ from: { x, y }, to: { x: to[i]?.[0] ?? NaN, y: to[i]?.[1] ?? NaN } }));

// Output of OpenCV's getPerspectiveTransform as a public unit test quotes it (check values 4.2, seen and recomputed).
const A = homography(
  pairs(
    [
      [33, 582],
      [151, 579],
      [145, 702],
      [25, 703],
    ],
    [
      [0, 0],
      [300, 0],
      [300, 300],
      [0, 300],
    ],
  ),
);

describe('homography against printed matrices', () => {
  it('gives the matrix that OpenCV prints', () => {
    const printed = [
      2.86405074, 0.189358727, -204.720453, 0.0710878995, 2.79612405, -1629.6901, 0.000160734029,
      0.000173337133, 1,
    ];
    if (!A) throw new Error('no map');
    // Printed to nine digits: each agrees to within half a unit of its last one.
    printed.forEach((value, i) => {
      expect(Math.abs((A[i] ?? NaN) / value - 1)).toBeLessThan(5e-9);
    });
  });

  it('takes points there and back (derived from the printed matrix)', () => {
    if (!A) throw new Error('no map');
    const there = mapped(A, { x: 88.5, y: 641.5 });
    expect(there?.x).toBeCloseTo(151.251577, 5);
    expect(there?.y).toBeCloseTo(151.3343, 5);
    const back = mapped(inverse(A), { x: 150, y: 150 });
    expect(back?.x).toBeCloseTo(88.034749, 5);
    expect(back?.y).toBeCloseTo(640.965803, 5);
  });

  it('gives the turn of mexopencv’s test (TestGetPerspectiveTransform.m, tolerance 1e-10)', () => {
    const h = homography(
      pairs(
        [
          [0, 1],
          [1, 1],
          [1, 0],
          [0.25, 0.25],
        ],
        [
          [1, 1],
          [1, 0],
          [0, 0],
          [0.25, 0.75],
        ],
      ),
    );
    [0, 1, 0, -1, 0, 1, 0, 0, 1].forEach((value, i) => {
      expect(Math.abs((h?.[i] ?? NaN) - value)).toBeLessThan(1e-10);
    });
  });
});
