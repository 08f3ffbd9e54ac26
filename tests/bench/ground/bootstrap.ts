import type { RandomStream } from '../../../scripts/simulator/base/random.ts';

/** The interval that holds 99 % of the means of lists drawn from this one with replacement (Efron 1979, percentile). */
export function meanInterval99(list: readonly number[], random: RandomStream): readonly [number, number] {
  const draws = 2000;
  const means = Array.from({ length: draws }, () => {
    let all = 0;
    for (let i = 0; i < list.length; i++) all += list[random.whole(list.length)] ?? 0;
    return all / list.length;
  }).sort((a, b) => a - b);
  return [means[Math.floor(0.005 * draws)] ?? NaN, means[Math.ceil(0.995 * draws) - 1] ?? NaN];
}

export const mean = (list: readonly number[]): number => list.reduce((all, v) => all + v, 0) / list.length;
