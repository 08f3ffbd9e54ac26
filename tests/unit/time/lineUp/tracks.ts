import type { SoundTrack } from '../../../../src/time/lineUp/soundTrack.ts';

/** A stream of numbers from -0.5 to 0.5 that depends on its seed alone (a linear congruential generator). */
export function noise(seed: number): () => number {
  let state = (seed * 2654435761) >>> 0;
  return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32 - 0.5;
}

export const rate = 8000;

/** A ringside: `count` bursts of noise over `seconds`, each of its own length and loudness. */
export function ringside(seed: number, seconds: number, count = seconds): Float32Array {
  const next = noise(seed);
  const samples = new Float32Array(Math.round(seconds * rate));
  for (let burst = 0; burst < count; burst++) {
    const at = Math.floor((next() + 0.5) * (samples.length - 4000));
    const long = 800 + Math.floor((next() + 0.5) * 2400);
    const loud = 0.3 + next() / 2;
    for (let n = 0; n < long; n++)
      samples[at + n] = (samples[at + n] ?? 0) + 2 * loud * next() * (1 - n / long);
  }
  return samples;
}

/** What a recorder makes of a ringside from a sample on: its own hiss on top. */
export function recorded(
  scene: Float32Array,
  from: number,
  until: number,
  own: number,
  hiss = 0.01,
): SoundTrack {
  const next = noise(own + 1);
  return { rate, from: 0, samples: scene.slice(from, until).map((v) => v + hiss * next()) };
}

export const track = (samples: Float32Array, from = 0): SoundTrack => ({ rate, samples, from });
