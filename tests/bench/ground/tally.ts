import { mean } from './bootstrap.ts';

/** Root of the mean of squares already taken. */
export const rms = (squares: readonly number[]): number => Math.sqrt(mean(squares));

/** The value below which a share of the list lies. */
export function quantile(list: readonly number[], share: number): number {
  const sorted = list.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}

export const median = (list: readonly number[]): number => quantile(list, 0.5);
