import { describe, expect, test } from 'vitest';
import { wantedLength, wantedLine } from '../../../src/line/wantedLine.ts';

/** mrdoob/three.js, test/unit/src/extras/curves/CatmullRomCurve3.tests.js, "catmullrom", tension 0.5, x and z of five points. */
const nodes = [
  { x: -60, y: -100 },
  { x: -60, y: 20 },
  { x: -60, y: 120 },
  { x: 60, y: 20 },
  { x: 60, y: -100 },
];

describe('the spline through nodes against published points', () => {
  const line = wantedLine(nodes, 0.5);
  // t = u / 10 of four pieces: u / 2.5 pieces on. Those that fall on our points are compared.
  test.each([
    [1, -60, -51.04],
    [2, -60, -2.72],
    [3, -61.92, 44.48],
    [4, -68.64, 95.36],
    [6, -14.88, 95.36],
    [8, 67.68, -2.72],
  ])('u = %d', (u, x, y) => {
    const [before, after] = [Math.floor((u / 2.5) * 24), Math.ceil((u / 2.5) * 24)];
    const share = (u / 2.5) * 24 - before;
    const [a, b] = [line[before], line[after]];
    if (!a || !b) throw new Error('no such point');
    // Between two of our points the curve is all but straight.
    expect(Math.abs(a.x + share * (b.x - a.x) - x)).toBeLessThan(0.1);
    expect(Math.abs(a.y + share * (b.y - a.y) - y)).toBeLessThan(0.1);
  });

  test('the length in space was published (551.549686 over 200 chords); its curve turned into the plane', () => {
    // z = -x in the published points: x drawn out by the root of two gives a curve of the same length.
    const inPlane = nodes.map(({ x, y }) => ({ x: x * Math.SQRT2, y }));
    expect(wantedLength(inPlane, 0.5)).toBeCloseTo(551.5667, 3);
    expect(wantedLength(inPlane, 0.5)).toBeGreaterThan(551.549686276872);
  });
});
