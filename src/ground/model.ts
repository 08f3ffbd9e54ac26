import type { PictureSize } from '../course/pictureLay.ts';
import { bending, halfDiagonal, type GroundCamera } from './camera.ts';
import {
  depth,
  followedBy,
  homography,
  inverse,
  type Homography,
  type Pair,
  type PlanePoint,
} from './homography.ts';
import { bent, type Lens } from './lens.ts';
import { sum, type Spread } from './spread.ts';

/** A part of the course whose place on the ground is known, and the pixel where it was seen. */
export interface Sighting {
  readonly id: string;
  readonly ground: PlanePoint;
  /** Pixels of the upright picture. */
  readonly pixel: PlanePoint;
}

/**
 * In what the numbers of a fit are counted: ground from the middle of the points over their usual distance from it, the
 * picture from its middle in half diagonals. In it the matrix of every camera that sees the points ends in 1.
 */
export interface Frame {
  readonly middle: PlanePoint;
  /** Metres. */
  readonly size: number;
  readonly picture: PictureSize;
}

/** The eight entries of the matrix before its last, then k1 and k2 as far as they are fitted. */
export type Numbers = readonly number[];

/** How many numbers of the lens are fitted. */
export type LensNumbers = 0 | 1 | 2;

/** The frame of these points; null where they all lie on one spot or are no numbers. */
export function frameOf(points: readonly PlanePoint[], picture: PictureSize): Frame | null {
  const n = points.length;
  const middle = {
    x: points.reduce((all, p) => all + p.x, 0) / n,
    y: points.reduce((all, p) => all + p.y, 0) / n,
  };
  const size = Math.sqrt(
    points.reduce((all, p) => all + (p.x - middle.x) ** 2 + (p.y - middle.y) ** 2, 0) / n,
  );
  return Number.isFinite(size) && size > 0 ? { middle, size, picture } : null;
}

/** The numbers without a lens that take the points to their pixels, by direct linear transformation. */
export function firstNumbers(frame: Frame, sightings: readonly Sighting[]): Numbers | null {
  const { width, height } = frame.picture;
  const unit = halfDiagonal(frame.picture);
  const h = homography(
    sightings.map(({ ground, pixel }): Pair => ({
      from: { x: (ground.x - frame.middle.x) / frame.size, y: (ground.y - frame.middle.y) / frame.size },
      to: { x: (pixel.x - width / 2) / unit, y: (pixel.y - height / 2) / unit },
    })),
  );
  // The middle of points that are all seen is in front of the camera, so that the last entry is not nothing.
  return h && h[8] === 1 && h.every(Number.isFinite) ? h.slice(0, 8) : null;
}

const lensIn = (numbers: Numbers): Lens => ({ k1: numbers[8] ?? 0, k2: numbers[9] ?? 0 });

/** From the ground to the frame's ground, and from the frame's picture to pixels. */
function sides({ middle, size, picture }: Frame): readonly [Homography, Homography] {
  const unit = halfDiagonal(picture);
  return [
    [1 / size, 0, -middle.x / size, 0, 1 / size, -middle.y / size, 0, 0, 1],
    [unit, 0, picture.width / 2, 0, unit, picture.height / 2, 0, 0, 1],
  ];
}

/** The camera that these numbers stand for. */
export function cameraOf(frame: Frame, numbers: Numbers): GroundCamera {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = numbers;
  const [near, pixels] = sides(frame);
  const whole = followedBy(followedBy(near, [a, b, c, d, e, f, g, h, 1]), pixels);
  // Its sign is that of the middle's depth, which is 1.
  const sign = Math.sign(depth(whole, frame.middle));
  const [p, q, r, s, t, u, v, w, x] = whole;
  return {
    picture: frame.picture,
    toPicture: [p * sign, q * sign, r * sign, s * sign, t * sign, u * sign, v * sign, w * sign, x * sign],
    lens: lensIn(numbers),
  };
}

/** The numbers of a map from the ground to pixels, without a lens. It sees the middle of the frame. */
export function numbersOf(frame: Frame, toPicture: Homography): Numbers {
  const [near, pixels] = sides(frame);
  const h = followedBy(followedBy(inverse(near), toPicture), inverse(pixels));
  return h.slice(0, 8).map((v) => v / h[8]);
}

/** Where these numbers put a point, and how the pixel moves with each of them. Pixels. */
export interface Put {
  readonly x: number;
  readonly y: number;
  /** In front of the camera where positive. */
  readonly depth: number;
  /** dx and dy by each number. */
  readonly dx: Float64Array;
  readonly dy: Float64Array;
}

/** Where the numbers put a point of the ground. */
export function put({ middle, size, picture }: Frame, numbers: Numbers, ground: PlanePoint): Put {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = numbers;
  const unit = halfDiagonal(picture);
  const lens = lensIn(numbers);
  const x = (ground.x - middle.x) / size;
  const y = (ground.y - middle.y) / size;
  const w = g * x + h * y + 1;
  const u = (a * x + b * y + c) / w;
  const v = (d * x + e * y + f) / w;
  const [xx, xy, , yy] = bending(lens, { x: u, y: v });
  const dx = new Float64Array(numbers.length);
  const dy = new Float64Array(numbers.length);
  const by = [x / w, y / w, 1 / w];
  by.forEach((s, i) => {
    dx[i] = unit * xx * s;
    dy[i] = unit * xy * s;
    dx[3 + i] = unit * xy * s;
    dy[3 + i] = unit * yy * s;
    if (i === 2) return;
    dx[6 + i] = -unit * s * (xx * u + xy * v);
    dy[6 + i] = -unit * s * (xy * u + yy * v);
  });
  const r2 = u * u + v * v;
  for (let i = 8; i < numbers.length; i++) {
    const far = r2 ** (i - 7);
    dx[i] = unit * u * far;
    dy[i] = unit * v * far;
  }
  const at = bent(lens, { x: u, y: v });
  return { x: picture.width / 2 + unit * at.x, y: picture.height / 2 + unit * at.y, depth: w, dx, dy };
}

/** A covariance of the numbers, row by row. */
export type Covariance = readonly (readonly number[])[];

/** How far the pixel is unsure because the numbers are: square pixels. */
export function pixelSpread({ dx, dy }: Pick<Put, 'dx' | 'dy'>, covariance: Covariance): Spread {
  let s: Spread = { xx: 0, xy: 0, yy: 0 };
  covariance.forEach((row, i) => {
    let cx = 0;
    let cy = 0;
    row.forEach((c, k) => {
      cx += c * (dx[k] ?? 0);
      cy += c * (dy[k] ?? 0);
    });
    const [px, py] = [dx[i] ?? 0, dy[i] ?? 0];
    s = sum(s, { xx: px * cx, xy: (px * cy + py * cx) / 2, yy: py * cy });
  });
  return s;
}
