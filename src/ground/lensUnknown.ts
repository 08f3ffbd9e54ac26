import type { Fit } from './fit.ts';
import type { View } from './groundError.ts';
import type { PlanePoint } from './homography.ts';
import { put } from './model.ts';

/**
 * What is allowed of a lens that the points do not tell: one deviation of k1, 5 % of the half diagonal at the picture's
 * corner (ours). Points that tell k1 to within this have it fitted.
 */
export const lensUnsure = 0.05;

/** Whether the points of a fit left the bend of the lens open. */
export const lensUnknownIn = (fit: Fit): boolean => fit.warnings.some((w) => w.warning === 'lensUnknown');

/**
 * What a unit of k1 would do at a place of the ground, pixels: how far off a fit that takes the lens to be straight a
 * click would lie there, after the fit has followed the clicked points as best it can (least squares).
 * @param clicked where the points that the fit goes by stand on the ground
 */
export function lensShift(
  { frame, numbers, covariance, noise }: View,
  clicked: readonly PlanePoint[],
): (ground: PlanePoint) => PlanePoint {
  const bending = [...numbers, 0];
  const k1 = numbers.length;
  const pull = numbers.map(() => 0);
  for (const ground of clicked) {
    const { dx, dy } = put(frame, bending, ground);
    numbers.forEach((_, n) => {
      pull[n] = (pull[n] ?? 0) + (dx[n] ?? 0) * (dx[k1] ?? 0) + (dy[n] ?? 0) * (dy[k1] ?? 0);
    });
  }
  const follows = covariance.map(
    (row) => row.reduce((sum, c, n) => sum + c * (pull[n] ?? 0), 0) / noise.pixels ** 2,
  );
  return (ground) => {
    const { dx, dy } = put(frame, bending, ground);
    const left = (d: Float64Array): number =>
      (d[k1] ?? 0) - follows.reduce((sum, f, n) => sum + f * (d[n] ?? 0), 0);
    return { x: left(dx), y: left(dy) };
  };
}
