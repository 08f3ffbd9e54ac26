import { inPicture, project, shown } from './camera.ts';
import type { Fit } from './fit.ts';
import type { PlanePoint } from './homography.ts';
import { pixelSpread, put, type Covariance, type Put } from './model.ts';
import { carried, ellipse95, slopeBack, type Ellipse, type Spread } from './spread.ts';

/** A part of the course that a coach may click. */
export interface Candidate {
  readonly id: string;
  readonly ground: PlanePoint;
}

/** Where a part is to be seen. */
export interface Predicted {
  readonly id: string;
  readonly pixel: PlanePoint;
  readonly inPicture: boolean;
  /** How far the fit may be off there: square pixels, and the ellipse that holds 95 %. */
  readonly spread: Spread;
  readonly ellipse: Ellipse;
}

/** Where the fit expects each part; those behind the camera, or beyond what the lens shows, are left out. */
export function predictions(fit: Fit, candidates: readonly Candidate[]): readonly Predicted[] {
  return candidates.flatMap(({ id, ground }): Predicted[] => {
    const pixel = project(fit.camera, ground);
    if (!pixel) return [];
    const spread = pixelSpread(put(fit.frame, fit.numbers, ground), fit.covariance);
    return [
      { id, pixel, inPicture: inPicture(fit.camera.picture, pixel), spread, ellipse: ellipse95(spread) },
    ];
  });
}

/**
 * Which part to click next: of those on the picture the one after whose click the mean squared error of the fit over
 * these places of the ground is least (A-optimal design). Null where none is on the picture.
 * @param places of the ground, metres; those that the picture does not show do not count
 */
export function nextBest(
  fit: Fit,
  candidates: readonly Candidate[],
  places: readonly PlanePoint[],
): { readonly id: string; readonly expected: number; readonly now: number } | null {
  const seen = places.flatMap((p) => {
    const there = shown(fit.camera, p);
    const slope = there && inPicture(fit.camera.picture, there.pixel) ? slopeBack(there.slope) : null;
    return slope ? [{ at: put(fit.frame, fit.numbers, p), slope }] : [];
  });
  if (seen.length === 0) return null;
  const error = (covariance: Covariance): number =>
    seen.reduce((all, { at, slope }) => {
      const { xx, yy } = carried(slope, pixelSpread(at, covariance));
      return all + (xx + yy) / seen.length;
    }, 0);
  const now = error(fit.covariance);
  let best: { id: string; expected: number } | null = null;
  for (const { id, ground } of candidates) {
    const pixel = project(fit.camera, ground);
    if (!pixel || !inPicture(fit.camera.picture, pixel)) continue;
    const expected = error(afterClick(fit.covariance, put(fit.frame, fit.numbers, ground), fit.noise.pixels));
    if (!best || expected < best.expected) best = { id, expected };
  }
  return best && { id: best.id, expected: Math.sqrt(best.expected), now: Math.sqrt(now) };
}

/** The covariance of the numbers once one more point is clicked (Kalman update; Woodbury's identity). */
function afterClick(covariance: Covariance, { dx, dy }: Put, noise: number): Covariance {
  const times = (d: Float64Array): number[] =>
    covariance.map((row) => row.reduce((all, c, k) => all + c * (d[k] ?? 0), 0));
  const dot = (a: Float64Array, b: readonly number[]): number =>
    b.reduce((all, v, k) => all + v * (a[k] ?? 0), 0);
  const [cx, cy] = [times(dx), times(dy)];
  const [xx, xy, yy] = [dot(dx, cx) + noise ** 2, dot(dx, cy), dot(dy, cy) + noise ** 2];
  const det = xx * yy - xy * xy;
  return covariance.map((row, i) =>
    row.map((c, k) => {
      const [a, b, e, f] = [cx[i] ?? 0, cy[i] ?? 0, cx[k] ?? 0, cy[k] ?? 0];
      return c - (a * (yy * e - xy * f) + b * (xx * f - xy * e)) / det;
    }),
  );
}
