import { type Homography, type PlanePoint } from './homography.ts';
import type { View } from './groundError.ts';
import { cameraOf } from './model.ts';

/** A place or a direction in space, metres; z is up. */
export interface Point3 {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Where a camera stands and how it looks, if it is a pinhole. */
export interface Pinhole {
  readonly at: Point3;
  /** Pixels. */
  readonly focal: number;
  /** One deviation of the focal length, pixels; 0 where it was stated. */
  readonly focalUnsure: number;
  /** Directions of the picture's right, down and forward on the ground. */
  readonly right: Point3;
  readonly down: Point3;
  readonly forward: Point3;
}

/** Beyond this share the focal length counts as unknown. */
const unsureShare = 0.25;

/**
 * The camera behind a fit. The focal length follows from the map of the ground (Zhang 2000, section 3.1), if the pixels
 * are square and the optical axis meets the middle of the picture: both are assumed, and hold for phones that do not
 * crop a film off centre.
 * @param stated focal length in pixels, where it is known otherwise
 * @returns null where the view does not tell the focal length (seen from straight above, or points too unsure), or no
 * pinhole shows the ground so
 */
export function pinholeOf(view: View, stated?: number): Pinhole | null {
  const focal = stated ?? focalOf(view.camera.toPicture, view.camera.picture);
  if (focal === null || !(focal > 0) || !Number.isFinite(focal)) return null;
  const focalUnsure = stated === undefined ? unsureOf(view) : 0;
  if (!(focalUnsure < unsureShare * focal)) return null;
  const h = centred(view.camera.toPicture, view.camera.picture);
  const ray = (x: number, y: number, z: number): Point3 => ({ x: x / focal, y: y / focal, z });
  const [a, b, c] = [ray(h[0], h[3], h[6]), ray(h[1], h[4], h[7]), ray(h[2], h[5], h[8])];
  const by = 2 / (length(a) + length(b));
  // The two columns should be at right angles and equally long; what is off is shared by both.
  const [p, q] = [unit(a), unit(b)];
  const [along, across] = [unit(plus(p, q)), unit(plus(p, times(q, -1)))];
  const r1 = times(plus(along, across), Math.SQRT1_2);
  const r2 = times(plus(along, times(across, -1)), Math.SQRT1_2);
  const r3 = cross(r1, r2);
  const t = times(c, by);
  const at = { x: -dot(r1, t), y: -dot(r2, t), z: -dot(r3, t) };
  if (!(at.z > 0) || !Number.isFinite(at.x + at.y + at.z)) return null;
  return {
    at,
    focal,
    focalUnsure,
    right: { x: r1.x, y: r2.x, z: r3.x },
    down: { x: r1.y, y: r2.y, z: r3.y },
    forward: { x: r1.z, y: r2.z, z: r3.z },
  };
}

/** The map from the ground to pixels of a pinhole. */
export function mapOf({ at, focal, right, down, forward }: Pinhole, middle: PlanePoint): Homography {
  const row = (d: Point3): readonly [number, number, number] => [d.x, d.y, -dot(d, at)];
  const [r, d, f] = [row(right), row(down), row(forward)];
  return [
    focal * r[0] + middle.x * f[0],
    focal * r[1] + middle.x * f[1],
    focal * r[2] + middle.x * f[2],
    focal * d[0] + middle.y * f[0],
    focal * d[1] + middle.y * f[1],
    focal * d[2] + middle.y * f[2],
    f[0],
    f[1],
    f[2],
  ];
}

/**
 * The same camera at another height over the same spot of the ground, tilted so that a place of the ground is seen at
 * the pixel where it was.
 */
export function atHeight(camera: Pinhole, height: number, aim: PlanePoint): Pinhole {
  const at = { ...camera.at, z: height };
  const to = (from: Point3): Point3 => unit({ x: aim.x - from.x, y: aim.y - from.y, z: -from.z });
  const turn = turning(to(camera.at), to(at));
  return { ...camera, at, right: turn(camera.right), down: turn(camera.down), forward: turn(camera.forward) };
}

/** The turn about the axis square to both that takes one direction to another (Rodrigues). */
function turning(from: Point3, to: Point3): (v: Point3) => Point3 {
  const axis = cross(from, to);
  const [s, c] = [length(axis), dot(from, to)];
  if (s < 1e-15) return (v) => v;
  const k = times(axis, 1 / s);
  return (v) => plus(plus(times(v, c), times(cross(k, v), s)), times(k, dot(k, v) * (1 - c)));
}

/** The map with pixels counted from the middle of the picture. */
function centred(
  h: Homography,
  { width, height }: { readonly width: number; readonly height: number },
): Homography {
  const [mx, my] = [width / 2, height / 2];
  const [a, b, c, d, e, f, g, i, j] = h;
  return [a - mx * g, b - mx * i, c - mx * j, d - my * g, e - my * i, f - my * j, g, i, j];
}

/** From the two conditions that the columns are at right angles and equally long, by least squares in 1/f². */
function focalOf(h: Homography, picture: { readonly width: number; readonly height: number }): number | null {
  const [a1, a2, , b1, b2, , c1, c2] = centred(h, picture);
  const left = [a1 * a2 + b1 * b2, a1 * a1 + b1 * b1 - a2 * a2 - b2 * b2] as const;
  const right = [c1 * c2, c1 * c1 - c2 * c2] as const;
  const inverse = -(left[0] * right[0] + left[1] * right[1]) / (left[0] ** 2 + left[1] ** 2);
  return inverse > 0 ? 1 / Math.sqrt(inverse) : null;
}

/** One deviation of the focal length, from the covariance of the fit. Infinity where it is lost nearby. */
function unsureOf({ camera, frame, numbers, covariance }: View): number {
  const focalBy = (k: number, by: number): number | null =>
    focalOf(
      cameraOf(
        frame,
        numbers.map((v, i) => (i === k ? v + by : v)),
      ).toPicture,
      camera.picture,
    );
  const slopes = numbers.map((_, k) => {
    const small = 1e-3 * Math.sqrt(covariance[k]?.[k] ?? 0) + 1e-12;
    const [more, less] = [focalBy(k, small), focalBy(k, -small)];
    return more === null || less === null ? Infinity : (more - less) / (2 * small);
  });
  const variance = covariance.reduce(
    (all, row, i) => all + row.reduce((part, c, k) => part + c * (slopes[i] ?? 0) * (slopes[k] ?? 0), 0),
    0,
  );
  return Number.isFinite(variance) ? Math.sqrt(Math.max(0, variance)) : Infinity;
}

const dot = (a: Point3, b: Point3): number => a.x * b.x + a.y * b.y + a.z * b.z;
const length = (a: Point3): number => Math.sqrt(dot(a, a));
const times = (a: Point3, k: number): Point3 => ({ x: a.x * k, y: a.y * k, z: a.z * k });
const plus = (a: Point3, b: Point3): Point3 => ({ x: a.x + b.x, y: a.y + b.y, z: a.z + b.z });
const unit = (a: Point3): Point3 => times(a, 1 / length(a));
const cross = (a: Point3, b: Point3): Point3 => ({
  x: a.y * b.z - a.z * b.y,
  y: a.z * b.x - a.x * b.z,
  z: a.x * b.y - a.y * b.x,
});
