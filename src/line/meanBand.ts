import type { Quantity } from '../time/quantity.ts';

/**
 * Student's t that nineteen in twenty lie within, by degrees of freedom (NIST/SEMATECH e-Handbook of Statistical
 * Methods, 1.3.6.7.2, column 0.975). Between rows the one before counts: a little too wide.
 */
const within: readonly (readonly [degrees: number, t: number])[] = [
  ...([
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [4, 2.776],
    [5, 2.571],
    [6, 2.447],
    [7, 2.365],
    [8, 2.306],
    [9, 2.262],
    [10, 2.228],
    [12, 2.179],
    [15, 2.131],
    [20, 2.086],
    [30, 2.042],
    [60, 2],
    [100, 1.984],
  ] as const),
];

/** Student's t for 95 % on both sides; NaN below one degree of freedom. */
export const studentT = (degrees: number): number => within.findLast(([d]) => d <= degrees)?.[1] ?? NaN;

/**
 * The mean of measured values and the half-width of its band: what their spread leaves open, and what they may be off
 * by all alike. NaN for less than two.
 */
export function meanOf(all: readonly Quantity[]): { readonly mean: number; readonly plusMinus: number } {
  const n = all.length;
  const sum = (of: (q: Quantity) => number): number => all.reduce((s, q) => s + of(q), 0);
  const mean = sum((q) => q.value) / n;
  const spread = Math.sqrt(sum((q) => (q.value - mean) ** 2) / (n - 1));
  const alike = sum((q) => q.plusMinus) / n;
  return { mean, plusMinus: Math.hypot((studentT(n - 1) * spread) / Math.sqrt(n), alike) };
}
