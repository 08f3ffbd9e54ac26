import type { Fit } from './fit.ts';
import type { View } from './groundError.ts';
import type { PlanePoint } from './homography.ts';
import { lensShift, lensUnknownIn } from './lensUnknown.ts';
import { pinholeOf, type Point3 } from './pinhole.ts';

/**
 * How far in height clicks are off that are said to touch the ground, metres, one standard deviation, where pads and
 * soles are seen (ours). Long grass hides more.
 */
export const padsSeen = 0.005;

/** What a camera leaves open beside the numbers of its fit: lines and the map of errors allow for the same. */
export interface Allowances {
  /** What a unit of k1 would move a click by, pixels; null where the bend of the lens is known. */
  readonly bends: ((ground: PlanePoint) => PlanePoint) | null;
  /** Where the lens stands; null where that cannot be told. */
  readonly lens: Point3 | null;
}

/** A camera that is only thought of brings what it leaves open; that of a fit follows from its points. */
export function allowancesOf(view: View | Fit | (View & Pick<Allowances, 'bends'>)): Allowances {
  const lens = pinholeOf(view)?.at ?? null;
  if ('bends' in view) return { bends: view.bends, lens };
  if (!('warnings' in view) || !lensUnknownIn(view)) return { bends: null, lens };
  const clicked = view.sightings.flatMap((s, i) => (view.points[i]?.used ? [s.ground] : []));
  return { bends: lensShift(view, clicked), lens };
}

/**
 * Where a point that is clicked a metre above the ground would be taken to lie, less where it is, metres a metre: away
 * from the camera by its distance over the height of the lens.
 */
export const shiftByHeight = (lens: Point3 | null, { x, y }: PlanePoint): PlanePoint =>
  lens ? { x: (x - lens.x) / lens.z, y: (y - lens.y) / lens.z } : { x: 0, y: 0 };
