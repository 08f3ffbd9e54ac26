/**
 * A bound on the chi-square distribution with `freedom` degrees: exceeded by chance with the probability that belongs
 * to the normal deviate `z` (Wilson and Hilferty 1931).
 */
export function chiSquareBound(freedom: number, z: number): number {
  const k = 2 / (9 * freedom);
  return freedom * Math.max(0, 1 - k + z * Math.sqrt(k)) ** 3;
}

/** The normal deviate that is exceeded once in a thousand. */
export const onceInAThousand = 3.0902;

/** For two degrees of freedom exactly: exceeded with probability `p`. */
export const pairBound = (p: number): number => -2 * Math.log(p);
