import { randomStream } from '../base/random.ts';

/** A burst of sound that is no word: a bark, a clap, a knock. */
export interface Burst {
  /** Run time at which it is made, seconds. */
  readonly at: number;
  readonly x: number;
  readonly y: number;
  /** Loudness at one metre. */
  readonly loud: number;
  readonly seed: number;
  readonly long: number;
  /** Middle of its band, Hz. */
  readonly pitch: number;
}

/** What is heard from around a ring of 40 by 20 metres: barks and claps at the rope, `perMinute` of them. */
export function burstsAround(seed: number, duration: number, perMinute: number): Burst[] {
  const random = randomStream(seed).branch('around the ring');
  return Array.from({ length: Math.round((duration / 60) * perMinute) }, () => {
    const along = random.between(-5, 45);
    const near = random.chance(0.5);
    const clap = random.chance(0.4);
    return {
      at: random.between(0, duration),
      x: along,
      y: near ? random.between(-6, -2) : random.between(22, 26),
      loud: random.between(0.5, 2.5),
      seed: random.whole(1e9),
      long: clap ? 0.05 : random.between(0.12, 0.3),
      pitch: clap ? 1800 : random.between(500, 1100),
    };
  });
}

/** What only one recorder hears: talk and knocks beside the camera, `perMinute` of them, each a second at most. */
export function burstsBeside(
  seed: number,
  ear: { readonly x: number; readonly y: number },
  duration: number,
  perMinute: number,
): Burst[] {
  const random = randomStream(seed).branch('beside the camera');
  return Array.from({ length: Math.round((duration / 60) * perMinute) }, () => ({
    at: random.between(0, duration),
    x: ear.x + random.between(1, 3),
    y: ear.y - random.between(1, 3),
    loud: random.between(0.05, 0.4),
    seed: random.whole(1e9),
    long: random.between(0.1, 1),
    pitch: random.between(300, 1500),
  }));
}

/** The burst's own samples: noise through a resonance, loud at once, dying away. The same wherever it is heard. */
export function burstWave(burst: Burst, sampleRate: number): Float32Array {
  const random = randomStream(burst.seed).branch('burst');
  const wave = new Float32Array(Math.round(burst.long * sampleRate));
  const r = Math.exp((-Math.PI * 400) / sampleRate);
  const turn = 2 * r * Math.cos((2 * Math.PI * burst.pitch) / sampleRate);
  let y1 = 0;
  let y2 = 0;
  for (let n = 0; n < wave.length; n++) {
    const y = (random.uniform() - 0.5) * (1 - r) + turn * y1 - r * r * y2;
    y2 = y1;
    y1 = y;
    const u = n / wave.length;
    wave[n] = y * Math.min(1, u * 30) * (1 - u) ** 1.5;
  }
  return wave;
}
