import { allowancesOf, padsSeen, shiftByHeight, type Allowances } from './allowances.ts';
import { groundShown, inPicture, shown } from './camera.ts';
import type { Fit } from './fit.ts';
import type { PlanePoint } from './homography.ts';
import { lensUnsure } from './lensUnknown.ts';
import { pixelSpread, put } from './model.ts';
import {
  carried,
  ellipse95,
  expectedDistance,
  round,
  slopeBack,
  sum,
  type Ellipse,
  type Spread,
} from './spread.ts';

/** A camera and how well it is known: of a fit, or of one that is only thought of. */
export type View = Pick<Fit, 'camera' | 'frame' | 'numbers' | 'covariance' | 'noise'>;

/** A clicked point on the ground with what it may be off. */
export interface OnGround {
  readonly at: PlanePoint;
  /** From the click alone, and with the fit: square metres. Errors of the fit are shared by all points of a clip. */
  readonly fromClick: Spread;
  readonly spread: Spread;
  /** Holds 95 %, metres. */
  readonly ellipse: Ellipse;
}

/**
 * Where a click lies on the ground, and how well that is known: first order, from the noise of the click and from the
 * covariance of the fit through the derivatives. Only what touches the ground lies there.
 * @param noise one deviation of this click per axis, pixels; absent: as of the fit's points
 * @returns null at and above the horizon
 */
export function onGround(view: View, pixel: PlanePoint, noise = view.noise.pixels): OnGround | null {
  const there = groundShown(view.camera, pixel);
  if (!there) return null;
  const fromClick = carried(there.slope, round(noise ** 2));
  const fromFit = carried(
    there.slope,
    pixelSpread(put(view.frame, view.numbers, there.ground), view.covariance),
  );
  const spread = sum(fromClick, fromFit);
  return { at: there.ground, fromClick, spread, ellipse: ellipse95(spread) };
}

/** The expected error over a piece of the ground, cell by cell, to be painted. */
export interface ErrorMap {
  readonly from: PlanePoint;
  readonly step: number;
  readonly columns: number;
  readonly rows: number;
  /** Row by row from `from`: root mean square of the distance in centimetres, at the middle of the cell; null unseen. */
  readonly centimetres: readonly (number | null)[];
}

/** Most cells that a map of errors has; its step grows where the ground is larger. */
const mostCells = 20_000;

/** A camera of a fit, or one that is only thought of and says what it leaves open of its lens. */
type Told = View | Fit | (View & Pick<Allowances, 'bends'>);

/**
 * What a mark on the ground is expected to be off, over a rectangle; it allows for what a line allows for (groundView).
 * @param step side of a cell, metres
 */
export function errorMap(
  view: Told,
  { from, to }: { readonly from: PlanePoint; readonly to: PlanePoint },
  step: number,
): ErrorMap {
  const [wide, long] = [Math.max(0, to.x - from.x), Math.max(0, to.y - from.y)];
  const side = Math.max(step, Math.sqrt((wide * long) / mostCells), wide / mostCells, long / mostCells);
  const columns = Math.max(1, Math.ceil(wide / side - 1e-9));
  const rows = Math.max(1, Math.ceil(long / side - 1e-9));
  const allowed = allowancesOf(view);
  const centimetres = Array.from({ length: rows * columns }, (_, i) =>
    errorWith(view, allowed, {
      x: from.x + side * ((i % columns) + 0.5),
      y: from.y + side * (Math.floor(i / columns) + 0.5),
    }),
  );
  return { from, step: side, columns, rows, centimetres };
}

/** What a mark there is expected to be off, centimetres; null where the picture does not show it. */
export const errorAt = (view: Told, ground: PlanePoint): number | null =>
  errorWith(view, allowancesOf(view), ground);

function errorWith(view: View, { bends, lens }: Allowances, ground: PlanePoint): number | null {
  const there = shown(view.camera, ground);
  const slope = there && inPicture(view.camera.picture, there.pixel) ? slopeBack(there.slope) : null;
  if (!slope) return null;
  const pixels = [
    round(view.noise.pixels ** 2),
    pixelSpread(put(view.frame, view.numbers, ground), view.covariance),
    along(bends?.(ground) ?? nothing, lensUnsure),
  ].reduce(sum);
  const byHeight = along(shiftByHeight(lens, ground), padsSeen);
  return 100 * expectedDistance(sum(carried(slope, pixels), byHeight));
}

const nothing: PlanePoint = { x: 0, y: 0 };

/** The spread of something that lies off in one direction by so many times `by`, which is known to one deviation. */
const along = ({ x, y }: PlanePoint, by: number): Spread => ({
  xx: (x * by) ** 2,
  xy: x * y * by * by,
  yy: (y * by) ** 2,
});

/** The middle one of the errors of a map, centimetres, and the share of the ground that is seen; null where none is. */
export function middleError(map: ErrorMap): { readonly centimetres: number; readonly seen: number } | null {
  const seen = map.centimetres.filter((c) => c !== null).toSorted((a, b) => a - b);
  const middle = seen[Math.floor((seen.length - 1) / 2)];
  return middle === undefined ? null : { centimetres: middle, seen: seen.length / map.centimetres.length };
}
