import { groundShown } from '../ground/camera.ts';
import type { Fit } from '../ground/fit.ts';
import type { View } from '../ground/groundError.ts';
import { put } from '../ground/model.ts';
import { pinholeOf } from '../ground/pinhole.ts';
import type { GroundView } from './fromMarks.ts';
import { mat } from './matrices.ts';

/**
 * How far in height clicks are off that are said to touch the ground, metres, one standard deviation, where pads and
 * soles are seen (ours). Long grass hides more.
 */
const padsSeen = 0.005;

/**
 * The ground as a fit of the course has it. Make one for each fit: lines that share it share its error. The last of its
 * parameters is the height at which points are clicked that touch the ground, all of a clip alike: a metre too high moves
 * a point away from the camera by its distance over the height of the lens. Where the camera stands is not known, that
 * is left out.
 * @param heightUnsure metres, one standard deviation
 */
export function groundViewOf(fit: View | Fit, heightUnsure = padsSeen): GroundView {
  const { camera, frame, numbers, covariance, noise } = fit;
  const foot = pinholeOf(fit)?.at ?? null;
  return {
    picture: camera.picture,
    under(pixel) {
      const there = groundShown(camera, pixel);
      if (!there) return null;
      const [a, b, c, d] = there.slope;
      const { dx, dy } = put(frame, numbers, there.ground);
      // Where the numbers would move the pixel, the ground under it moves the other way.
      const by = (p: number, q: number): number[] => Array.from(dx, (u, k) => -(p * u + q * (dy[k] ?? 0)));
      const { x, y } = there.ground;
      const [upX, upY] = foot ? [(x - foot.x) / foot.z, (y - foot.y) / foot.z] : [0, 0];
      return {
        x,
        y,
        byPixel: [a, b, c, d],
        byFit: [
          [...by(a, b), upX],
          [...by(c, d), upY],
        ],
      };
    },
    foot,
    error: {
      cov: mat([...covariance.map((row) => [...row, 0]), [...covariance.map(() => 0), heightUnsure ** 2]]),
    },
    clickNoise: noise.pixels,
  };
}
