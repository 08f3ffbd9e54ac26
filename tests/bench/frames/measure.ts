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

/** The lines of a bench's parts, one after another; WALKBACK_BENCH_PART runs one part alone. */
export async function linesOfParts(
  parts: Readonly<Record<string, () => Promise<BenchLine[]> | BenchLine[]>>,
): Promise<BenchLine[]> {
  const only = process.env['WALKBACK_BENCH_PART'];
  const lines: BenchLine[] = [];
  for (const [name, part] of Object.entries(parts))
    if (only === undefined || only === name) lines.push(...(await part()));
  return lines;
}
