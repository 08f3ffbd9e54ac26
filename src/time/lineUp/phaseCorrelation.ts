import { roomFor, transformOf, type Spectrum } from './spectrum.ts';

/** Frequencies that are compared, Hz: voices, barks and claps; no wind and no mains hum. */
export const band = { from: 250, to: 3600 } as const;

/**
 * How well a piece of sound fits into a longer one at each delay, by generalised cross-correlation with phase
 * weighting (Knapp, Carter 1976, "The generalized correlation method for estimation of time delay", IEEE Trans. ASSP
 * 24): each frequency of the cross-spectrum is divided by its own size, so that only the delay of its phase counts.
 * That keeps peaks narrow for voices and under echo. Here only within `band`.
 * @param piece,long spectra of one size, at least as many samples as `long` has
 * @param delays delays 0 to this many samples are looked at
 * @returns per delay, in standard deviations of the curve; all 0 where the sounds have nothing in that band
 */
export function phaseCurve(piece: Spectrum, long: Spectrum, rate: number, delays: number): Float32Array {
  const size = piece.length / 2;
  const low = Math.ceil((band.from * size) / rate);
  const high = Math.min(size / 2 - 1, Math.floor((band.to * size) / rate));
  const weighted: Spectrum = new Array<number>(2 * size).fill(0);
  for (let k = low; k <= high; k++) {
    const er = piece[2 * k] ?? 0;
    const ei = piece[2 * k + 1] ?? 0;
    const lr = long[2 * k] ?? 0;
    const li = long[2 * k + 1] ?? 0;
    const re = lr * er + li * ei;
    const im = li * er - lr * ei;
    const length = Math.sqrt(re * re + im * im);
    if (!(length > 0)) continue;
    // A half spectrum is enough: the real part of its transform is half of the whole one's.
    weighted[2 * k] = re / length;
    weighted[2 * k + 1] = im / length;
  }
  const curve = Float32Array.from(
    transformOf(size)
      .samples(weighted)
      .subarray(0, delays + 1),
  );
  let sum = 0;
  for (const v of curve) sum += v * v;
  const deviation = Math.sqrt(sum / curve.length);
  return deviation > 0 ? curve.map((v) => v / deviation) : curve;
}

/** Where a curve is highest, between samples, and how high. */
export interface Peak {
  readonly at: number;
  readonly height: number;
}

/** The highest place of a curve from `from` to `to`; its place between samples is the top of the parabola there. */
export function peakOf(curve: ArrayLike<number>, from = 0, to = curve.length - 1): Peak {
  let best = Math.max(0, Math.ceil(from));
  for (let i = best; i <= Math.min(to, curve.length - 1); i++) {
    if ((curve[i] ?? -Infinity) > (curve[best] ?? -Infinity)) best = i;
  }
  const height = curve[best] ?? 0;
  const before = curve[best - 1] ?? height;
  const after = curve[best + 1] ?? height;
  const bend = before - 2 * height + after;
  const shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) : 0;
  return { at: best + shift, height };
}

/** The delay of a piece within a longer sound, in samples: the peak of their phase curve. */
export function phaseDelay(piece: ArrayLike<number>, long: ArrayLike<number>, rate: number): Peak {
  const transform = transformOf(roomFor(long.length));
  const delays = Math.max(0, long.length - piece.length);
  return peakOf(phaseCurve(transform.spectrum(piece), transform.spectrum(long), rate, delays));
}
