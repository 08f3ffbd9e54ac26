import type { BenchLine } from '../run.ts';

/** The value that this share of a list does not exceed (nearest rank). */
export function percentile(list: readonly number[], share: number): number {
  const sorted = list.toSorted((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? NaN;
}

export const p95 = (list: readonly number[]): number => percentile(list, 0.95);
export const median = (list: readonly number[]): number => percentile(list, 0.5);

/** A line on a ratio that may be so large at most. */
export function atMost(figure: string, ratio: number, most: number, told: string): BenchLine {
  return {
    figure,
    asked: `at most ${most}`,
    measured: `${ratio.toFixed(2)} (${told})`,
    holds: ratio <= most,
  };
}

/** A line on a ratio that must be so large at least. */
export function atLeast(figure: string, ratio: number, least: number, told: string): BenchLine {
  return {
    figure,
    asked: `at least ${least}`,
    measured: `${ratio.toFixed(2)} (${told})`,
    holds: ratio >= least,
  };
}

export const ms = (value: number): string => `${value.toFixed(1)} ms`;
