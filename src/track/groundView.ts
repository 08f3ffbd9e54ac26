import { groundShown } from '../ground/camera.ts';
import type { Fit } from '../ground/fit.ts';
import type { View } from '../ground/groundError.ts';
import { put } from '../ground/model.ts';
import { pinholeOf } from '../ground/pinhole.ts';
import type { GroundView } from './fromMarks.ts';
import { mat } from './matrices.ts';

/** The ground as a fit of the course has it. Make one for each fit: lines that share it share its error. */
export function groundViewOf(fit: View | Fit): GroundView {
  const { camera, frame, numbers, covariance, noise } = fit;
  return {
    picture: camera.picture,
    under(pixel) {
      const there = groundShown(camera, pixel);
      if (!there) return null;
      const [a, b, c, d] = there.slope;
      const { dx, dy } = put(frame, numbers, there.ground);
      // Where the numbers would move the pixel, the ground under it moves the other way.
      const by = (p: number, q: number): number[] => Array.from(dx, (u, k) => -(p * u + q * (dy[k] ?? 0)));
      return { ...there.ground, byPixel: [a, b, c, d], byFit: [by(a, b), by(c, d)] };
    },
    foot: pinholeOf(fit)?.at ?? null,
    error: { cov: mat(covariance) },
    clickNoise: noise.pixels,
  };
}
