import { transformOf } from './spectrum.ts';
import type { SoundTrack } from './soundTrack.ts';

/** Steps a second in which onsets are told. */
export const stepsPerSecond = 100;

/** Edges of the bands in which onsets are looked for, Hz: about two a octave. */
const edges = [250, 350, 500, 700, 1000, 1400, 2000, 2800, 3900] as const;

/** What begins when: per band, by how much its loudness rose in each step. */
export interface Onsets {
  readonly bands: readonly Float32Array[];
  /** Loudness of each step above the quiet of the track, decibels, all bands together. */
  readonly loud: Float32Array;
}

/**
 * Onsets of a track: in each band the rise of the logarithmic energy over the quiet of that band, negative changes
 * left out (spectral flux: Bello and others 2005, "A tutorial on onset detection in music signals", IEEE Trans. SAP
 * 13). Onsets are alike for two microphones even where loudness and timbre are not.
 */
export function onsetsOf({ rate, samples }: SoundTrack): Onsets {
  const hop = Math.round(rate / stepsPerSecond);
  const size = 256;
  const steps = Math.max(0, Math.floor((samples.length - size) / hop) + 1);
  const transform = transformOf(size);
  const window = Float64Array.from(
    { length: size },
    (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size),
  );
  const energy = edges.slice(1).map(() => new Float32Array(steps));
  const piece = new Float64Array(size);
  const first = edges.map((f) => Math.round((f * size) / rate));
  for (let step = 0; step < steps; step++) {
    const from = step * hop;
    for (let i = 0; i < size; i++) piece[i] = (samples[from + i] ?? 0) * (window[i] ?? 0);
    const spectrum = transform.spectrum(piece);
    energy.forEach((band, b) => {
      let sum = 0;
      const until = Math.min(size / 2, first[b + 1] ?? 0);
      for (let k = first[b] ?? 0; k < until; k++) {
        sum += (spectrum[2 * k] ?? 0) ** 2 + (spectrum[2 * k + 1] ?? 0) ** 2;
      }
      band[step] = sum;
    });
  }
  const total = new Float32Array(steps);
  for (const band of energy) for (let i = 0; i < steps; i++) total[i] = (total[i] ?? 0) + (band[i] ?? 0);
  return { bands: energy.map(rises), loud: aboveQuiet(total) };
}

/** Ten decibels above this share of the quietest steps counts as a sound. */
const quietShare = 0.3;

function quietOf(energy: Float32Array): number {
  const sorted = Float32Array.from(energy).sort();
  return Math.max(sorted[Math.floor(sorted.length * quietShare)] ?? 0, Number.MIN_VALUE, 1e-12);
}

function aboveQuiet(energy: Float32Array): Float32Array {
  const quiet = quietOf(energy);
  return energy.map((e) => 10 * Math.log10(1e-3 + e / quiet));
}

function rises(energy: Float32Array): Float32Array {
  const quiet = quietOf(energy) * 2;
  const level = energy.map((e) => Math.log1p(e / quiet));
  const rise = level.map((l, i) => Math.max(0, l - (level[i - 2] ?? l)));
  let mean = 0;
  for (const r of rise) mean += r / rise.length;
  return rise.map((r) => r - mean);
}
