import FFT from 'fft.js';

/** A complex spectrum: real and imaginary part of each bin in turn. */
export type Spectrum = number[];

/** Fourier transforms of one size, a power of two. Radix 4 after Cooley and Tukey (1965), by fft.js. */
export interface Transform {
  readonly size: number;
  /** The spectrum of real samples; fewer than `size` are filled up with zeros. All `size` bins. */
  spectrum(samples: ArrayLike<number>): Spectrum;
  /** The samples of a whole spectrum: real parts only. */
  samples(spectrum: Spectrum): Float64Array;
}

const made = new Map<number, Transform>();

/** The transform of a size. Throws a RangeError unless it is a power of two above 1. */
export function transformOf(size: number): Transform {
  const there = made.get(size);
  if (there) return there;
  if (!Number.isSafeInteger(size) || size < 2 || (size & (size - 1)) !== 0) {
    throw new RangeError(`${size} samples cannot be transformed: a power of two is needed`);
  }
  const fft = new FFT(size);
  const padded: number[] = new Array<number>(size).fill(0);
  const transform: Transform = {
    size,
    spectrum(samples) {
      const many = Math.min(size, samples.length);
      for (let i = 0; i < many; i++) padded[i] = samples[i] ?? 0;
      padded.fill(0, many);
      const out = fft.createComplexArray() as number[];
      fft.realTransform(out, padded);
      fft.completeSpectrum(out);
      return out;
    },
    samples(spectrum) {
      const out = fft.createComplexArray() as number[];
      fft.inverseTransform(out, spectrum);
      const real = new Float64Array(size);
      for (let i = 0; i < size; i++) real[i] = out[2 * i] ?? 0;
      return real;
    },
  };
  made.set(size, transform);
  return transform;
}

/** The smallest power of two that holds so many samples. */
export function roomFor(samples: number): number {
  return 2 ** Math.max(1, Math.ceil(Math.log2(samples)));
}

/**
 * Cross-correlation of two lists by way of their spectra, no wrap-around: entry `lag + b.length - 1` is the sum of
 * a[i + lag] b[i] over all i that both have. Lags run from -(b.length - 1) to a.length - 1.
 */
export function crossCorrelation(a: ArrayLike<number>, b: ArrayLike<number>): Float64Array {
  const transform = transformOf(roomFor(a.length + b.length));
  const spectrum = timesConjugate(transform.spectrum(a), transform.spectrum(b));
  const round = transform.samples(spectrum);
  const lags = new Float64Array(a.length + b.length - 1);
  for (let i = 0; i < lags.length; i++) {
    const lag = i - (b.length - 1);
    lags[i] = round[lag < 0 ? lag + transform.size : lag] ?? 0;
  }
  return lags;
}

/** Bin by bin: the first times the conjugate of the second. */
export function timesConjugate(a: Spectrum, b: Spectrum): Spectrum {
  const out: Spectrum = new Array<number>(a.length);
  for (let i = 0; i < a.length; i += 2) {
    const ar = a[i] ?? 0;
    const ai = a[i + 1] ?? 0;
    const br = b[i] ?? 0;
    const bi = b[i + 1] ?? 0;
    out[i] = ar * br + ai * bi;
    out[i + 1] = ai * br - ar * bi;
  }
  return out;
}
