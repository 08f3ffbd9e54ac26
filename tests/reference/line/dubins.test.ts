import { describe, expect, test } from 'vitest';
import { driven, dubins, words, wordPieces, type DubinsPath, type Facing } from '../../../src/line/dubins.ts';
import { randomStream } from '../../../scripts/simulator/base/random.ts';

const pi = Math.PI;
const at = (x: number, y: number, angle: number): Facing => ({ x, y, angle });

describe('shortest ways against published lengths', () => {
  test.each([
    // AndrewWalker/pydubins, tests/test_dubins.py.
    [at(0, 0, 0), at(10, 0, 0), 1, 10],
    [at(0, 0, 0), at(10, 0, 0), 2, 10],
    [at(0, 0, 0), at(0, -0.1, 0), 2, 4 * pi + 0.1],
    [at(0, 0, 0), at(0, 2, -pi), 1, pi],
    [at(0, 0, pi / 2), at(1, 0, -pi / 2), 1, 6.03253],
    [at(0, 0, 0), at(10, 10, pi / 4), 1, 14.223623],
    [at(0, 0, 0), at(10, 10, pi / 4), 2, 14.312257],
    [at(0, 0, 0), at(0, 0, 0), 1, 0],
    // kaarthiksundar/Dubins.jl, test/test1.jl.
    [at(0, 0, 0), at(5, 0, 3), 1, 8.272519],
    // Plane geometry: a quarter of a circle, where the textbook formulas give a full turn more.
    [at(0, 0, pi / 2), at(1, 1, 0), 1, pi / 2],
    [at(0, 0, 0), at(4, 4, pi / 2), 1.5, 5.891728],
  ])('%o to %o, radius %d: %d', (from, to, radius, length) => {
    expect(dubins(from, to, radius).length).toBeCloseTo(length, 6);
  });

  test('the word where one was published', () => {
    // Published as RSR; to the left it is as long.
    expect(dubins(at(0, 0, 0), at(0, -0.1, 0), 2).word).toMatch(/^(RSR|LSL)$/);
    expect(dubins(at(0, 0, pi / 2), at(1, 0, -pi / 2), 1).word).toBe('LRL');
    expect(dubins(at(0, 0, 0), at(5, 0, 3), 1).word).toBe('RSL');
  });

  test.each([-1, 0, NaN])('a radius of %d is refused', (radius) => {
    expect(() => dubins(at(0, 0, 0), at(10, 0, 0), radius)).toThrow(RangeError);
  });
  test('places that are nowhere are refused', () => {
    expect(() => dubins(at(NaN, 0, 0), at(10, 0, 0), 1)).toThrow(RangeError);
    expect(() => dubins(at(0, 0, 0), at(10, 0, Infinity), 1)).toThrow(RangeError);
  });
});

/** AndrewWalker/Dubins-Curves, tests/test-output.txt: all six words by alpha, beta and d; null where none leads there. */
const published: readonly (readonly [number, number, number, readonly (number | null)[], string])[] = [
  [-pi, -pi, 2, [8.28, 8.28, 11.42, 11.42, 16.76, 16.76], 'LSL'],
  [-2.748894, -pi, 2, [7.51, 9.06, 11.0, 11.78, 16.69, 16.79], 'LSL'],
  [-2.356194, -pi, 0.4, [12.21, 8.21, null, 5.92, 12.19, 11.36], 'RSL'],
  [-2.356194, -pi, 2, [6.82, 9.79, 10.52, 12.04, 16.64, 16.71], 'LSL'],
  [-2.356194, -pi, 3.6, [8.41, 11.39, 10.54, 12.9, null, 14.81], 'LSL'],
];

describe('all six words against published lengths', () => {
  const pieces = new Float64Array(18);
  const of = (alpha: number, beta: number, d: number) => {
    wordPieces(0, 0, alpha, d, 0, beta, 1, pieces);
    return words.map((_, i) => [...pieces.slice(3 * i, 3 * i + 3)]);
  };
  test.each(published)('alpha %d, beta %d, d %d', (alpha, beta, d, lengths, best) => {
    of(alpha, beta, d).forEach((three, i) => {
      const sum = three.reduce((a, b) => a + b, 0);
      const wanted = lengths[i];
      if (wanted === null || wanted === undefined) expect(sum).toBeNaN();
      else expect(Math.abs(sum - wanted)).toBeLessThanOrEqual(0.0051);
    });
    expect(dubins(at(0, 0, alpha), at(d, 0, beta), 1).word).toBe(best);
  });
  test('the three pieces', () => {
    const [lsl, rsr] = of(-2.356194, -pi, 2);
    [2.133413, 1.325654, 3.364373].forEach((v, i) => expect(lsl?.[i]).toBeCloseTo(v, 5));
    [3.819216, 2.722906, 3.249368].forEach((v, i) => expect(rsr?.[i]).toBeCloseTo(v, 5));
  });
  test('three turns only where the circles lie within four radii', () => {
    expect(of(-pi, -pi, 4)[4]?.reduce((a, b) => a + b, 0)).toBeCloseTo(12.57, 2);
    expect(of(-pi, -pi, 4.4)[4]?.[0]).toBeNaN();
  });
});

describe('random feasible words', () => {
  const stream = randomStream(1957);
  const turn = (): number => {
    const which = stream.whole(8);
    if (which === 0) return 0;
    if (which === 1) return 2 * pi - stream.between(0, 1e-3);
    if (which === 2) return stream.between(0, 1e-3);
    if (which === 3) return pi / 2;
    return stream.between(0, 2 * pi);
  };
  const straight = (): number =>
    stream.chance(0.2) ? 0 : stream.chance(0.2) ? stream.between(0, 1e-3) : stream.between(0, 12);

  test('ours is never longer, and driven forward ends where they end', () => {
    let worst = 0;
    let off = 0;
    for (let i = 0; i < 60_000; i++) {
      const radius = stream.between(0.5, 5);
      const word = words[stream.whole(6)] ?? 'LSL';
      const pieces = [
        turn() * radius,
        word[1] === 'S' ? straight() : turn() * radius,
        turn() * radius,
      ] as const;
      const path: DubinsPath = { word, pieces, radius, length: pieces[0] + pieces[1] + pieces[2] };
      const from = at(stream.between(-20, 20), stream.between(-20, 20), stream.between(-7, 7));
      const to = driven(from, path, path.length);
      const ours = dubins(from, to, radius);
      worst = Math.max(worst, ours.length - path.length);
      const end = driven(from, ours, ours.length);
      const aside = Math.abs(Math.sin((end.angle - to.angle) / 2)) * 2;
      off = Math.max(off, Math.hypot(end.x - to.x, end.y - to.y), aside);
    }
    expect(worst).toBeLessThanOrEqual(1e-9);
    expect(off).toBeLessThanOrEqual(1e-9);
  });
});
