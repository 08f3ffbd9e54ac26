import type { PictureSize } from '../course/pictureLay.ts';
import { depth, inverse, mapped, type Homography, type PlanePoint } from './homography.ts';
import { bent, foldOf, straightened, type Lens } from './lens.ts';
import { slopeBack, type Slope } from './spread.ts';

/**
 * How a camera shows the ground, for the frames over which it does not move: a plane seen through a lens. A camera that
 * moves is one of these for every frame; nothing here knows of time.
 */
export interface GroundCamera {
  /** The upright picture. */
  readonly picture: PictureSize;
  /** From metres of the ring to pixels of a straight lens, y down; its depth is positive in front of the camera. */
  readonly toPicture: Homography;
  readonly lens: Lens;
}

/** A point of the ground in the picture, and how the pixel moves with it: pixels, pixels per metre. */
export interface Shown {
  readonly pixel: PlanePoint;
  readonly slope: Slope;
}

/** Half the diagonal of a picture, pixels: the unit of the lens. */
export const halfDiagonal = ({ width, height }: PictureSize): number => Math.hypot(width, height) / 2;

/** Pixels as half diagonals from the middle of the picture. */
export const fromMiddle = (picture: PictureSize, p: PlanePoint): PlanePoint => {
  const unit = halfDiagonal(picture);
  return { x: (p.x - picture.width / 2) / unit, y: (p.y - picture.height / 2) / unit };
};

const toPixels = (picture: PictureSize, q: PlanePoint): PlanePoint => {
  const unit = halfDiagonal(picture);
  return { x: picture.width / 2 + q.x * unit, y: picture.height / 2 + q.y * unit };
};

/** True where a pixel lies on the picture. */
export const inPicture = ({ width, height }: PictureSize, { x, y }: PlanePoint): boolean =>
  x >= 0 && y >= 0 && x <= width && y <= height;

/**
 * Where a point of the ground is seen, pixels, whether on the picture or beside it.
 * @returns null behind the camera, or so far aside that the lens folds the picture over
 */
export function project(camera: GroundCamera, ground: PlanePoint): PlanePoint | null {
  const { picture, toPicture, lens } = camera;
  const straight = depth(toPicture, ground) > 0 ? mapped(toPicture, ground) : null;
  if (!straight) return null;
  const q = fromMiddle(picture, straight);
  return Math.hypot(q.x, q.y) < foldOf(lens) ? toPixels(picture, bent(lens, q)) : null;
}

/** The same with its derivatives by the ground; null as in `project`. */
export function shown(camera: GroundCamera, ground: PlanePoint): Shown | null {
  const pixel = project(camera, ground);
  if (!pixel) return null;
  const { picture, toPicture: h, lens } = camera;
  const w = depth(h, ground);
  const straight = {
    x: (h[0] * ground.x + h[1] * ground.y + h[2]) / w,
    y: (h[3] * ground.x + h[4] * ground.y + h[5]) / w,
  };
  const [a, b, c, d] = [
    (h[0] - straight.x * h[6]) / w,
    (h[1] - straight.x * h[7]) / w,
    (h[3] - straight.y * h[6]) / w,
    (h[4] - straight.y * h[7]) / w,
  ];
  const [e, f, g, i] = bending(lens, fromMiddle(picture, straight));
  return { pixel, slope: [e * a + f * c, e * b + f * d, g * a + i * c, g * b + i * d] };
}

/** Derivatives of the bent picture by the straight one, at a point of the straight one (half diagonals). */
export function bending({ k1, k2 }: Lens, { x, y }: PlanePoint): Slope {
  const r2 = x * x + y * y;
  const by = 1 + r2 * (k1 + k2 * r2);
  const grows = 2 * (k1 + 2 * k2 * r2);
  return [by + grows * x * x, grows * x * y, grows * x * y, by + grows * y * y];
}

/**
 * The point of the ground that a pixel shows, metres.
 * @returns null at and above the horizon, and where the lens shows nothing
 */
export function unproject(camera: GroundCamera, pixel: PlanePoint): PlanePoint | null {
  const { picture, toPicture, lens } = camera;
  const straight = straightened(lens, fromMiddle(picture, pixel));
  const ground = straight && mapped(inverse(toPicture), toPixels(picture, straight));
  return ground && depth(toPicture, ground) > 0 && Number.isFinite(ground.x + ground.y) ? ground : null;
}

/** The point of the ground that a pixel shows, and how it moves with the pixel: metres, metres per pixel. */
export function groundShown(
  camera: GroundCamera,
  pixel: PlanePoint,
): { readonly ground: PlanePoint; readonly slope: Slope; readonly forth: Slope } | null {
  const ground = unproject(camera, pixel);
  const there = ground && shown(camera, ground);
  const slope = there && slopeBack(there.slope);
  return ground && there && slope ? { ground, slope, forth: there.slope } : null;
}
