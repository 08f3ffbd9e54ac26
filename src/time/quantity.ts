import { apart, driftBetween, middle, type Bracket } from './bracket.ts';

/** Units that figures are stated in. */
export type Unit = 's' | 'm' | 'm/s' | 'cm' | 'deg' | 'frames' | '1';

/** A figure with its plus or minus: the true value lies within `value` ± `plusMinus`. */
export interface Quantity {
  readonly value: number;
  readonly plusMinus: number;
  readonly unit: Unit;
}

/**
 * Time from `a` to `b`: the difference of the middles, plus or minus half the sum of the widths, what a capture speed
 * that is not exact adds over the way from one to the other, and for moments seen on two clips by how far their clocks
 * may be apart. Positive where b comes after a.
 */
export function timeBetween(a: Bracket, b: Bracket): Quantity {
  return {
    value: middle(b) - middle(a),
    plusMinus: (b.to - b.from + (a.to - a.from)) / 2 + driftBetween(a, b) + apart(a, b),
    unit: 's',
  };
}

/** Lowest value the figure allows. */
export const least = (q: Quantity): number => q.value - q.plusMinus;
/** Highest value the figure allows. */
export const most = (q: Quantity): number => q.value + q.plusMinus;

/**
 * Where a figure stands to a threshold: `above` or `below` where its whole range says so, else `open`.
 * Ends are half-open brackets, so touching the threshold leaves it open; slack for rounding of doubles is 1 ns.
 */
export function against(q: Quantity, threshold: number): 'above' | 'below' | 'open' {
  const slack = 1e-9;
  if (least(q) > threshold + slack) return 'above';
  if (most(q) < threshold - slack) return 'below';
  return 'open';
}
