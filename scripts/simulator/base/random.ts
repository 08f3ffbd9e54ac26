/** A stream of random numbers that depends on its seed alone (integer arithmetic on 32 bits). */
export interface RandomStream {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Uniform in [low, high). */
  between(low: number, high: number): number;
  /** Near-normal, mean 0, standard deviation 1, never beyond 6 (twelve uniforms summed). */
  bell(): number;
  /** True with the given chance. */
  chance(probability: number): boolean;
  /** Whole number in [0, count). */
  whole(count: number): number;
  /** An independent stream named by `label`; the parent is not advanced. */
  branch(label: string): RandomStream;
}

function hashLabel(seed: number, label: string): number {
  let h = (seed ^ 0x9e3779b9) >>> 0;
  for (let i = 0; i < label.length; i++) {
    h = Math.imul(h ^ label.charCodeAt(i), 0x01000193) >>> 0;
    h ^= h >>> 15;
  }
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b) >>> 0;
  return (h ^ (h >>> 13)) >>> 0;
}

/** A stream from a whole-number seed. Same seed, same numbers. */
export function randomStream(seed: number): RandomStream {
  const origin = Math.floor(seed) >>> 0;
  let state = origin;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = Math.imul(state ^ (state >>> 15), state | 1);
    z = (z + Math.imul(z ^ (z >>> 7), z | 61)) ^ z;
    return ((z ^ (z >>> 14)) >>> 0) / 4294967296;
  };
  return {
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    bell: () => {
      let sum = -6;
      for (let i = 0; i < 12; i++) sum += uniform();
      return sum;
    },
    chance: (probability) => uniform() < probability,
    whole: (count) => Math.floor(uniform() * count),
    branch: (label) => randomStream(hashLabel(origin, label)),
  };
}
