import { entry, type Mat } from './matrices.ts';
import type { Quantity, Unit } from '../time/quantity.ts';

/** Of a normal figure, 95 % lies within this many standard deviations. */
export const z95 = 1.959964;
/** Of a normal point of the plane, 95 % lies within the ellipse of this many (the root of χ² with two degrees, 5.991). */
export const plane95 = 2.447747;

/** A figure and the band that holds 95 % of what it may be. */
export const banded = (value: number, variance: number, unit: Unit): Quantity => ({
  value,
  plusMinus: z95 * Math.sqrt(Math.max(0, variance)),
  unit,
});

/** The variance of a figure that goes with a state by these slopes: slopesᵀ · cov · slopes. */
export function varianceAlong(slopes: readonly number[], cov: Mat): number {
  let sum = 0;
  slopes.forEach((a, i) => slopes.forEach((b, j) => (sum += a * entry(cov, i, j) * b)));
  return sum;
}

/** The ellipse that holds 95 % of where a point may be. */
export interface PlaceBand {
  /** Half its longer and half its shorter axis, metres. */
  readonly long: number;
  readonly short: number;
  /** The way of the longer axis, radians from +x. */
  readonly angle: number;
}

/** The band of a place from the first two rows of a covariance. */
export function placeBand(cov: Mat): PlaceBand {
  const [xx, xy, yy] = [entry(cov, 0, 0), entry(cov, 0, 1), entry(cov, 1, 1)];
  const middle = (xx + yy) / 2;
  const half = Math.hypot((xx - yy) / 2, xy);
  return {
    long: plane95 * Math.sqrt(Math.max(0, middle + half)),
    short: plane95 * Math.sqrt(Math.max(0, middle - half)),
    angle: 0.5 * Math.atan2(2 * xy, xx - yy),
  };
}
