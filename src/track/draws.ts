import { carried, cholesky, plus, times, zeros, type Mat } from './matrices.ts';
import type { RealLine } from './realLine.ts';

/** One way the body may have gone: x, y, vx, vy at every stored moment of the line, one after the other. */
export type Drawn = Float64Array;

/**
 * Ways that the readings leave open, each as likely as the next (forward filter, backward sampling; Carter and Kohn
 * 1994, Frühwirth-Schnatter 1994), the error of the fit drawn once for each. Same seed, same ways.
 */
export function drawnWays(line: RealLine, count: number, seed: number): readonly Drawn[] {
  const { filtered, predicted, states, back } = line.smoothed;
  const n = states.length;
  const bell = bells(seed);
  const steps = filtered.map((here, i) => {
    const gain = back[i];
    const next = predicted[i + 1];
    return gain && next
      ? { gain, next, root: cholesky(plus(here.cov, carried(gain, next.cov), -1)) }
      : { gain: zeros(4, 4), next: here, root: cholesky(here.cov) };
  });
  const fitRoot = line.fit && cholesky(line.fit.cov);
  return Array.from({ length: count }, () => {
    const way = new Float64Array(4 * n);
    for (let i = n - 1; i >= 0; i--) {
      const step = steps[i];
      const here = filtered[i];
      if (!step || !here) continue;
      const loose = noise(step.root, bell);
      for (let row = 0; row < 4; row++) {
        let value = (here.mean.v[row * here.mean.cols] ?? 0) + (loose[row] ?? 0);
        if (i < n - 1)
          for (let k = 0; k < 4; k++)
            value +=
              (step.gain.v[row * 4 + k] ?? 0) *
              ((way[4 * (i + 1) + k] ?? 0) - (step.next.mean.v[k * step.next.mean.cols] ?? 0));
        way[4 * i + row] = value;
      }
    }
    if (fitRoot) shift(way, line, noise(fitRoot, bell));
    return way;
  });
}

function shift(way: Drawn, line: RealLine, off: readonly number[]): void {
  line.smoothed.states.forEach(({ mean }, i) => {
    for (let row = 0; row < 4; row++)
      for (let k = 0; k < off.length; k++)
        way[4 * i + row] = (way[4 * i + row] ?? 0) + (mean.v[row * mean.cols + 1 + k] ?? 0) * (off[k] ?? 0);
  });
}

function noise(root: Mat, bell: () => number): readonly number[] {
  const z = zeros(root.rows, 1);
  for (let i = 0; i < root.rows; i++) z.v[i] = bell();
  return times(root, z).v;
}

/** Normal numbers from a seed: mulberry32 (public domain, T. Ettinger) through Box and Muller (1958). */
export function bells(seed: number): () => number {
  let state = Math.floor(seed) >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
