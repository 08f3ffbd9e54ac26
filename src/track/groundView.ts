import { groundShown } from '../ground/camera.ts';
import type { Fit } from '../ground/fit.ts';
import type { View } from '../ground/groundError.ts';
import { allowancesOf, padsSeen, shiftByHeight } from '../ground/allowances.ts';
import { lensUnsure } from '../ground/lensUnknown.ts';
import { put, type Covariance } from '../ground/model.ts';
import type { GroundView } from './fromMarks.ts';
import { mat } from './matrices.ts';

/**
 * The ground as a fit of the course has it. Make one for each fit: lines that share it share its error. Its parameters
 * are the numbers of the fit and two that it cannot tell: what the lens bends, where that was not fitted, and the height
 * at which points are clicked that touch the ground, all of a clip alike. A metre too high moves a point away from the
 * camera by its distance over the height of the lens; where the camera stands is not known, that is left out.
 * @param heightUnsure metres, one standard deviation
 */
export function groundViewOf(fit: View | Fit, heightUnsure = padsSeen): GroundView {
  const { camera, frame, numbers, covariance, noise } = fit;
  const { lens: foot, bends } = allowancesOf(fit);
  return {
    picture: camera.picture,
    under(pixel) {
      const there = groundShown(camera, pixel);
      if (!there) return null;
      const { x, y } = there.ground;
      const [a, b, c, d] = there.slope;
      const { dx, dy } = put(frame, numbers, there.ground);
      const lens = bends?.(there.ground) ?? { x: 0, y: 0 };
      // Where the numbers would move the pixel, the ground under it moves the other way.
      const by = (p: number, q: number): number[] => [
        ...Array.from(dx, (u, k) => -(p * u + q * (dy[k] ?? 0))),
        p * lens.x + q * lens.y,
      ];
      const up = shiftByHeight(foot, there.ground);
      const byFit = [
        [...by(a, b), up.x],
        [...by(c, d), up.y],
      ] as const;
      return { x, y, byPixel: [a, b, c, d], byFit };
    },
    foot,
    error: { cov: mat(alongside(covariance, [bends ? lensUnsure ** 2 : 0, heightUnsure ** 2])) },
    clickNoise: noise.pixels,
  };
}

/** A covariance with further variances of things that have nothing to do with it. */
function alongside(covariance: Covariance, more: readonly number[]): number[][] {
  const size = covariance.length + more.length;
  return Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, k) =>
      i === k && i >= covariance.length ? (more[i - covariance.length] ?? 0) : (covariance[i]?.[k] ?? 0),
    ),
  );
}
