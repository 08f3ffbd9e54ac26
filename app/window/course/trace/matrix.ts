import type { Underlay } from '../../../../src/course/underlay.ts';
import { pictureToGround, type PictureSize } from '../../../../src/course/pictureLay.ts';
import { depth, followedBy, type Homography } from '../../../../src/ground/homography.ts';
import type { Camera, Size } from '../board/camera.ts';

/**
 * The CSS transform that lays an upright picture of `shown` CSS pixels under the board as the camera sees the ground
 * (CSS Transforms 2, matrix3d: columns first; perspective in its last row). Empty where the picture has no lie.
 */
export function underlayTransform(
  underlay: Underlay,
  picture: PictureSize,
  shown: Size,
  camera: Camera,
  size: Size,
): string {
  const lay = pictureToGround(underlay, picture);
  if (!lay) return '';
  const fraction: Homography = [1 / shown.width, 0, 0, 0, 1 / shown.height, 0, 0, 0, 1];
  const { scale } = camera;
  const seen: Homography = [
    scale,
    0,
    size.width / 2 - scale * camera.x,
    0,
    -scale,
    size.height / 2 + scale * camera.y,
    0,
    0,
    1,
  ];
  const whole = followedBy(followedBy(fraction, lay), seen);
  // What lies before the horizon has to come out positive, or the browser takes it for what is behind the eye.
  const sign = depth(whole, { x: shown.width / 2, y: shown.height / 2 }) < 0 ? -1 : 1;
  const [a, b, c, d, e, f, g, h, i] = whole.map((v) => v * sign);
  return `matrix3d(${[a, d, 0, g, b, e, 0, h, 0, 0, 1, 0, c, f, 0, i].join(',')})`;
}
