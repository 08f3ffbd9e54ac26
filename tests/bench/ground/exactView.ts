import { inverse, mapped, type Homography } from '../../../src/ground/homography.ts';
import type { GroundView } from '../../../src/track/fromMarks.ts';
import type { Camera, CameraMatrix } from '../../../scripts/simulator/camera/camera.ts';

/** The ground under the pixels of a camera that is known exactly: the oracle's. */
export function exactView(camera: Camera, m: CameraMatrix, clickNoise: number): GroundView {
  const toPicture: Homography = [
    m[0][0], m[0][1], m[0][3],
    m[1][0], m[1][1], m[1][3],
    m[2][0], m[2][1], m[2][3],
  ]; // prettier-ignore
  const back = inverse(toPicture);
  return {
    picture: camera,
    under(pixel) {
      const point = mapped(back, pixel);
      const depth = point ? m[2][0] * point.x + m[2][1] * point.y + m[2][3] : 0;
      if (!point || depth <= 0) return null;
      const [a, b] = [m[0][0] - pixel.x * m[2][0], m[0][1] - pixel.x * m[2][1]];
      const [c, d] = [m[1][0] - pixel.y * m[2][0], m[1][1] - pixel.y * m[2][1]];
      const by = depth / (a * d - b * c);
      return { ...point, byPixel: [d * by, -b * by, -c * by, a * by], byFit: [[], []] };
    },
    foot: camera.at,
    error: null,
    clickNoise,
  };
}
