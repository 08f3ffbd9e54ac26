import { Matrix, SVD } from 'ml-matrix';

/** A point of a plane: a picture, a sheet of paper, the ground. */
export interface PlanePoint {
  readonly x: number;
  readonly y: number;
}

/** A point and where it lies on the other plane. */
export interface Pair {
  readonly from: PlanePoint;
  readonly to: PlanePoint;
}

/** A projective map of one plane onto another: the 3 × 3 matrix row by row, scaled so that its last entry is 1 where it can be. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** The map that leaves every point where it is. */
export const identity: Homography = [1, 0, 0, 0, 1, 0, 0, 0, 1];

/** Below this share of the largest singular value another one counts as nothing. */
const dust = 1e-9;

/**
 * The map that takes each point to its partner: exactly for four pairs, by least squares of the algebraic error for
 * more. Normalised direct linear transformation (Hartley 1997, In defense of the eight-point algorithm; Hartley and
 * Zisserman 2004, algorithm 4.2).
 * @returns null where fewer than four pairs are given, a number is not finite, or the points do not fix the map
 * (three of four in a line, points on each other)
 */
export function homography(pairs: readonly Pair[]): Homography | null {
  if (pairs.length < 4) return null;
  const before = normalising(pairs.map((p) => p.from));
  const after = normalising(pairs.map((p) => p.to));
  if (!before || !after) return null;
  const rows = pairs.flatMap(({ from, to }) => {
    const { x, y } = moved(before, from);
    const { x: u, y: v } = moved(after, to);
    return [
      [-x, -y, -1, 0, 0, 0, u * x, u * y, u],
      [0, 0, 0, -x, -y, -1, v * x, v * y, v],
    ];
  });
  // A ninth row, so that the decomposition of four pairs carries the vector of the null space too.
  if (rows.length < 9) rows.push([0, 0, 0, 0, 0, 0, 0, 0, 0]);
  const svd = new SVD(new Matrix(rows), { computeLeftSingularVectors: false });
  const [most = 0] = svd.diagonal;
  // The last value is the error of the fit; where the one before it is nothing as well, many maps fit.
  if (!((svd.diagonal[7] ?? 0) > dust * most)) return null;
  const h = matrix(svd.rightSingularVectors.getColumn(8));
  // Of length 1, so that its determinant says how near it is to flattening the plane into a line.
  if (!(Math.abs(determinant(h)) > dust)) return null;
  return scaled(product(product(inverseOf(after), h), before));
}

/** Where a point lies on the other plane; null on the horizon of the map. Behind it, see `depth`. */
export function mapped(h: Homography, p: PlanePoint): PlanePoint | null {
  const w = h[6] * p.x + h[7] * p.y + h[8];
  if (!(Math.abs(w) > 1e-12)) return null;
  return { x: (h[0] * p.x + h[1] * p.y + h[2]) / w, y: (h[3] * p.x + h[4] * p.y + h[5]) / w };
}

/** How far in front of the map's horizon a point lies: points that are seen together all have the same sign. */
export const depth = (h: Homography, p: PlanePoint): number => h[6] * p.x + h[7] * p.y + h[8];

/** The map back. */
export const inverse = (h: Homography): Homography => scaled(inverseOf(h));

/** The map that does `first`, then `then`. */
export const followedBy = (first: Homography, then: Homography): Homography => scaled(product(then, first));

/** Moves the middle of the points to the origin and makes their mean distance from it the square root of two. */
function normalising(points: readonly PlanePoint[]): Homography | null {
  const n = points.length;
  const cx = points.reduce((sum, p) => sum + p.x, 0) / n;
  const cy = points.reduce((sum, p) => sum + p.y, 0) / n;
  const away = points.reduce((sum, p) => sum + Math.hypot(p.x - cx, p.y - cy), 0) / n;
  const s = Math.SQRT2 / away;
  return Number.isFinite(s) && away > 0 ? [s, 0, -s * cx, 0, s, -s * cy, 0, 0, 1] : null;
}

const moved = (t: Homography, p: PlanePoint): PlanePoint => ({ x: t[0] * p.x + t[2], y: t[4] * p.y + t[5] });

const matrix = (h: readonly number[]): Homography => {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, i = 0, j = 0] = h;
  return [a, b, c, d, e, f, g, i, j];
};

function product(a: Homography, b: Homography): Homography {
  const cell = (row: number, column: number): number =>
    [0, 1, 2].reduce((sum, k) => sum + (a[3 * row + k] ?? 0) * (b[3 * k + column] ?? 0), 0);
  return matrix([0, 1, 2].flatMap((row) => [0, 1, 2].map((column) => cell(row, column))));
}

function determinant([a, b, c, d, e, f, g, h, i]: Homography): number {
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}

/** The adjugate: the inverse but for a factor, which a projective map does not have. */
function inverseOf([a, b, c, d, e, f, g, h, i]: Homography): Homography {
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

/** The same map with a last entry of 1; where that entry is nothing beside the others, of length 1. */
function scaled(h: Homography): Homography {
  const size = Math.hypot(...h);
  const by = Math.abs(h[8]) > 1e-12 * size ? h[8] : size;
  return matrix(h.map((v) => v / by));
}
