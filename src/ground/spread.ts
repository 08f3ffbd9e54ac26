/** A covariance in the plane: variances along x and y and what they have in common, squares of the unit. */
export interface Spread {
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

/** Derivatives of a point of one plane by a point of another: dx'/dx, dx'/dy, dy'/dx, dy'/dy. */
export type Slope = readonly [number, number, number, number];

/** An ellipse about a point: half its axes, and the way of the longer one, radians from +x toward +y. */
export interface Ellipse {
  readonly longer: number;
  readonly shorter: number;
  readonly angle: number;
}

/** Share 0.95 of a normal distribution in the plane lies within this many deviations squared: -2 ln 0.05. */
const within95 = -2 * Math.log(0.05);

/** The ellipse that holds 95 % of a normal distribution with this covariance. */
export function ellipse95({ xx, xy, yy }: Spread): Ellipse {
  const middle = (xx + yy) / 2;
  const apart = Math.hypot((xx - yy) / 2, xy);
  return {
    longer: Math.sqrt(within95 * Math.max(0, middle + apart)),
    shorter: Math.sqrt(within95 * Math.max(0, middle - apart)),
    angle: Math.atan2(2 * xy, xx - yy) / 2,
  };
}

/** The distance that is to be expected, root of the mean square, in the unit. */
export const expectedDistance = ({ xx, yy }: Spread): number => Math.sqrt(Math.max(0, xx + yy));

export const sum = (a: Spread, b: Spread): Spread => ({ xx: a.xx + b.xx, xy: a.xy + b.xy, yy: a.yy + b.yy });

/** The same in every direction: variance `v`. */
export const round = (v: number): Spread => ({ xx: v, xy: 0, yy: v });

/** The covariance on the other plane. */
export function carried([a, b, c, d]: Slope, { xx, xy, yy }: Spread): Spread {
  return {
    xx: a * a * xx + 2 * a * b * xy + b * b * yy,
    xy: a * c * xx + (a * d + b * c) * xy + b * d * yy,
    yy: c * c * xx + 2 * c * d * xy + d * d * yy,
  };
}

/** The derivatives of the way back; null where the plane is seen edge on. */
export function slopeBack([a, b, c, d]: Slope): Slope | null {
  const det = a * d - b * c;
  return det !== 0 && Number.isFinite(1 / det) ? [d / det, -b / det, -c / det, a / det] : null;
}

/** Squared distance of (x, y) in deviations of this covariance (Mahalanobis); Infinity where it has none. */
export function deviations({ xx, xy, yy }: Spread, x: number, y: number): number {
  const det = xx * yy - xy * xy;
  return det > 0 ? (yy * x * x - 2 * xy * x * y + xx * y * y) / det : Infinity;
}
