import type { Course } from '../../../../src/course/course.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { shiftByHeight } from '../../../../src/ground/allowances.ts';
import { inPicture, shown } from '../../../../src/ground/camera.ts';
import type { Fit } from '../../../../src/ground/fit.ts';
import {
  errorAt,
  errorMap,
  middleError,
  type ErrorMap,
  type View,
} from '../../../../src/ground/groundError.ts';
import { higherStand } from '../../../../src/ground/higherStand.ts';
import { pinholeOf } from '../../../../src/ground/pinhole.ts';
import { carried, expectedDistance, round, slopeBack } from '../../../../src/ground/spread.ts';
import { groundOf, type Scene } from './scene.ts';

/** Side of a patch of the map of errors, metres. */
const patch = 1;
/** How much higher a stand is thought of. Metres. */
const higherBy = 1.5;

/** What a camera tells of the ground. Centimetres; null where the picture does not show it. */
export interface Tells {
  readonly map: ErrorMap;
  readonly middle: { readonly centimetres: number; readonly seen: number } | null;
  /** At the number at hand. */
  readonly here: { readonly place: number; readonly centimetres: number | null } | null;
  /** Along the stretch: the least and the most; null where some of it is not seen. */
  readonly along: { readonly least: number; readonly most: number } | null;
  /** Of a stand 1.5 m higher; null where the height of the camera cannot be told. */
  readonly higher: {
    readonly now: number;
    readonly then: number;
    readonly centimetres: number;
    readonly lost: number;
  } | null;
  /** How much farther away a paw is taken to be that is clicked `clickedUp` too high: the middle one of the places. */
  readonly raised: number | null;
}

/** A paw is clicked this much too high where grass hides it, metres (ours). */
export const clickedUp = 0.05;

/**
 * What this fit lets a click tell, and what a higher stand would buy.
 * @param place the number of the obstacle at hand
 */
export function tellsOf(
  scene: Pick<Scene, 'course' | 'places' | 'stretch'>,
  fit: Fit,
  place: number | null,
): Tells {
  const { course, places, stretch } = scene;
  const map = errorMap(fit, groundOf(course), patch);
  const here = place === null ? null : standOf(course, place);
  const along = stretch ? places.map((p) => errorAt(fit, p)) : [];
  const seen = along.filter((e) => e !== null);
  return {
    map,
    middle: middleError(map),
    here: place !== null && here ? { place, centimetres: errorAt(fit, here) } : null,
    along:
      seen.length > 0 && seen.length === along.length
        ? { least: Math.min(...seen), most: Math.max(...seen) }
        : null,
    higher: higherOf(fit, here ? [here] : places),
    raised: raisedOf(fit, here ? [here] : places),
  };
}

function raisedOf(fit: Fit, places: readonly GroundPoint[]): number | null {
  const lens = pinholeOf(fit)?.at;
  if (!lens) return null;
  const seen = places.filter((p) => errorAt(fit, p) !== null);
  const all = seen
    .map((p) => shiftByHeight(lens, p))
    .map(({ x, y }) => 100 * clickedUp * Math.hypot(x, y))
    .toSorted((a, b) => a - b);
  return all[Math.floor((all.length - 1) / 2)] ?? null;
}

/** Where a number stands. */
export function standOf(course: Course, place: number): GroundPoint | null {
  const id = course.steps.find((s) => s.number === place)?.obstacleId;
  const stand = course.obstacles.find((o) => o.id === id)?.stand;
  return stand ? { x: stand.x, y: stand.y } : null;
}

function higherOf(fit: Fit, places: readonly GroundPoint[]): Tells['higher'] {
  const now = pinholeOf(fit)?.at.z;
  if (now === undefined) return null;
  const then = now + higherBy;
  const raised = higherStand(fit, then);
  const error = raised.known ? middleOf(raised.view, places) : null;
  return raised.known && error !== null ? { now, then, centimetres: error, lost: raised.lost.length } : null;
}

/** The middle one of the errors at places that are seen, centimetres. */
function middleOf(view: View, places: readonly GroundPoint[]): number | null {
  const all = places.flatMap((p) => errorAt(view, p) ?? []).toSorted((a, b) => a - b);
  return all[Math.floor((all.length - 1) / 2)] ?? null;
}

/** What a distance in the picture is on the ground there, centimetres; null at the horizon. */
export function onGroundThere({ camera }: Fit, ground: GroundPoint, pixels: number): number | null {
  const there = shown(camera, ground);
  const slope = there && inPicture(camera.picture, there.pixel) ? slopeBack(there.slope) : null;
  // A distance in no particular direction: the same along both axes.
  return slope ? 100 * expectedDistance(carried(slope, round(pixels ** 2 / 2))) : null;
}
