// Published examples: NumPy reference manual, `numpy.correlate`; MathWorks documentation, `finddelay`.
import { describe, expect, it } from 'vitest';
import { peakOf, phaseDelay } from '../../../src/time/lineUp/phaseCorrelation.ts';
import { crossCorrelation, transformOf } from '../../../src/time/lineUp/spectrum.ts';
import { noise } from '../../unit/time/lineUp/tracks.ts';

const rounded = (list: ArrayLike<number>): number[] => Array.from(list, (v) => Math.round(v * 1e9) / 1e9 + 0);

describe('cross-correlation by way of spectra', () => {
  it('gives what the NumPy manual prints for mode "full"', () => {
    expect(rounded(crossCorrelation([1, 2, 3], [0, 1, 0.5]))).toEqual([0.5, 2, 3.5, 3, 0]);
  });

  it.each([
    [[1, 2, 3], [0, 0, 1, 2, 3], 2],
    [[0, 0, 0, 1, 2, 3, 0, 0], [1, 2, 3, 0], -3],
    [[0, 0, 1, 2, 3, 0], [0.02, 0.12, 1.08, 2.21, 2.95, -0.09], 0],
  ])('has its peak at the delay that finddelay documents: %j, %j', (x, y, delay) => {
    const { at } = peakOf(crossCorrelation(y, x));
    expect(Math.round(at) - (x.length - 1)).toBe(delay);
  });

  it('equals the sum of products that defines it', () => {
    const next = noise(5);
    const [a, b] = [53, 29].map((n) => Array.from({ length: n }, () => next()));
    if (!a || !b) throw new Error('two lists');
    const direct = Array.from({ length: a.length + b.length - 1 }, (_, k) =>
      b.reduce((sum, v, i) => sum + v * (a[i + k - (b.length - 1)] ?? 0), 0),
    );
    crossCorrelation(a, b).forEach((v, k) => {
      expect(v).toBeCloseTo(direct[k] ?? NaN, 9);
    });
  });
});

describe('the transform', () => {
  it('gives the discrete Fourier transform by its definition', () => {
    const next = noise(6);
    const samples = Array.from({ length: 16 }, () => next());
    const spectrum = transformOf(16).spectrum(samples);
    for (let k = 0; k < 16; k++) {
      const re = samples.reduce((sum, v, n) => sum + v * Math.cos((2 * Math.PI * k * n) / 16), 0);
      const im = samples.reduce((sum, v, n) => sum - v * Math.sin((2 * Math.PI * k * n) / 16), 0);
      expect(spectrum[2 * k]).toBeCloseTo(re, 9);
      expect(spectrum[2 * k + 1]).toBeCloseTo(im, 9);
    }
  });
  it('refuses a size that is no power of two', () => {
    expect(() => transformOf(12)).toThrow(RangeError);
  });
});

it('phase weighting finds the delay of a sound under an echo that is as loud (Knapp, Carter 1976)', () => {
  const next = noise(7);
  const dry = Float32Array.from({ length: 8192 }, () => next());
  const long = new Float32Array(8192 + 4096);
  // The sound 1234 samples late, and again 300 samples later, as a wall would throw it back.
  dry.forEach((v, i) => {
    long[i + 1234] = (long[i + 1234] ?? 0) + v;
    if (i + 1534 < long.length) long[i + 1534] = (long[i + 1534] ?? 0) + 0.9 * v;
  });
  const peak = phaseDelay(dry, long, 8000);
  expect(Math.abs(peak.at - 1234)).toBeLessThan(0.5);
  expect(peak.height).toBeGreaterThan(20);
});
