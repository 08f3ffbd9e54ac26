/** Whole hundredths, of a second or of a fault: sums and comparisons of scores are exact. */
declare const brand: unique symbol;
export type Hundredths = number & { readonly [brand]: 'Hundredths' };

/** The most that is counted: more than a day of seconds. */
const most = 10_000_000;

/**
 * A reading in seconds, or a number of faults, as whole hundredths; a finer one goes to the nearest.
 * @throws RangeError where it is not a number from 0 to 100,000
 */
export function hundredths(value: number): Hundredths {
  const whole = Math.round(value * 100);
  if (!(value >= 0) || whole > most)
    throw new RangeError(
      `${String(value)} cannot be a time or a number of faults: it has to lie from 0 to 100000`,
    );
  return whole as Hundredths;
}

/** Back to seconds or faults, e.g. 1817 to 18.17. */
export const inUnits = (h: Hundredths): number => h / 100;

/** What was computed in whole hundredths. For the modules of this folder, which keep them whole. */
export const whole = (n: number): Hundredths => n as Hundredths;

/** A quotient brought to a whole multiple of `unit`. All three are whole numbers; the quotient is never formed. */
export function quotientTo(
  dividend: number,
  divisor: number,
  unit: number,
  way: 'up' | 'nearest' | 'down',
): Hundredths {
  const by = divisor * unit;
  const rest = dividend % by;
  const down = (dividend - rest) / by;
  const up = way === 'up' ? rest > 0 : way === 'nearest' && rest * 2 >= by;
  return whole((up ? down + 1 : down) * unit);
}
