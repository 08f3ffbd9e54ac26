import type { PictureSize } from '../course/pictureLay.ts';
import type { GroundCamera } from './camera.ts';
import { chiSquareBound, onceInAThousand } from './chiSquare.ts';
import type { PlanePoint } from './homography.ts';
import { layoutWarnings, type LayoutWarning } from './layout.ts';
import { foldOf } from './lens.ts';
import { lensUnsure } from './lensUnknown.ts';
import {
  cameraOf,
  frameOf,
  put,
  type Covariance,
  type Frame,
  type LensNumbers,
  type Numbers,
  type Sighting,
} from './model.ts';
import { agreed, startsOf, wrongFrom, type Agreed, type Starts } from './robust.ts';
import type { Impossible } from './plausible.ts';

/** A click is off by this much, one deviation per axis, pixels, unless it was measured (design: ground plane). */
export const usualClickNoise = 2;

/** One clicked point as the fit sees it. */
export interface JudgedPoint {
  readonly id: string;
  /** False where it was set aside because the others contradict it. */
  readonly used: boolean;
  /** Clicked less predicted by the fit, pixels. */
  readonly off: PlanePoint;
  /** How far it is off what the other points say, in deviations; null where no other point can tell. */
  readonly deviations: number | null;
}

export type FitWarning =
  | LayoutWarning
  /** Points do not agree to within the noise of clicks, and it cannot be said which is wrong. */
  | { readonly warning: 'disagree' }
  /** No point can check another: with four points, or where one alone holds a side. */
  | { readonly warning: 'unchecked'; readonly ids: readonly string[] }
  /** The points are too few, or lie too near each other in the picture, to see whether the lens bends it. */
  | { readonly warning: 'lensUnknown' };

/** The course fitted to the picture, for the frames over which the camera does not move. */
export interface Fit {
  readonly fitted: true;
  readonly camera: GroundCamera;
  readonly frame: Frame;
  readonly numbers: Numbers;
  /** Covariance of the numbers from the noise of the clicks. */
  readonly covariance: Covariance;
  /** One deviation of a click per axis, pixels; measured where the points themselves tell it. */
  readonly noise: { readonly pixels: number; readonly measured: boolean };
  readonly sightings: readonly Sighting[];
  readonly points: readonly JudgedPoint[];
  /** The point that is off the most, as measured by how well it is known. */
  readonly worst: string | null;
  readonly warnings: readonly FitWarning[];
}

/** Why there is no fit. `tooFew` says how many points are missing; `badNumbers` which points are no numbers. */
export type NoFit = { readonly fitted: false } & (
  | { readonly why: 'tooFew'; readonly missing: number }
  | { readonly why: 'badNumbers'; readonly ids: readonly string[] }
  | { readonly why: 'inLine' | 'unclear' | Impossible }
);

export interface FitWish {
  /** One deviation of a click per axis, pixels. */
  readonly clickNoise?: number;
  /** Points around the ground that is to be measured, for the warning of bunched points. */
  readonly area?: readonly PlanePoint[];
  /** `straight`: the lens is known to bend nothing. */
  readonly lens?: 'asTold' | 'straight';
}

/** Points from which on the lens is fitted, with one number and with two. */
const lensFrom: readonly (readonly [LensNumbers, number])[] = [
  [1, 8],
  [2, 16],
];
/** k2 must make the points agree better by so many deviations squared: three deviations. */
const lensGain = 9;

/**
 * The camera from points whose place on the ground is known: normalised direct linear transformation (Hartley 1997),
 * then least squares of the distances in the picture.
 *
 * The lens: k1 is fitted from 8 agreeing points on, if they are spread over the picture so well that they tell it to
 * within 0.05, whether or not it differs from nothing: left out where it is small, the errors would be understated, and
 * fitted it costs next to nothing. k2 is added from 16 points on where it makes them agree better by three deviations.
 * Six points or more also tell which of them are wrong.
 */
export function fitCourse(
  sightings: readonly Sighting[],
  picture: PictureSize,
  wish: FitWish = {},
): Fit | NoFit {
  const bad = sightings.filter((s) => ![s.ground.x, s.ground.y, s.pixel.x, s.pixel.y].every(sane));
  if (bad.length > 0) return { fitted: false, why: 'badNumbers', ids: bad.map((s) => s.id) };
  if (!(picture.width > 0 && picture.height > 0 && sane(picture.width + picture.height)))
    return { fitted: false, why: 'unclear' };
  if (sightings.length < 4) return { fitted: false, why: 'tooFew', missing: 4 - sightings.length };
  const frame = frameOf(
    sightings.map((s) => s.ground),
    picture,
  );
  const noise = wish.clickNoise ?? usualClickNoise;
  const best = frame && bestLens(frame, sightings, noise, wish.lens ?? 'asTold');
  if (!frame || !best || best === 'unclear') return { fitted: false, why: whyUnclear(sightings) };
  if (typeof best === 'string') return { fitted: false, why: best };
  const used = sightings.filter((_, i) => best.agrees[i]);
  const points = sightings.map((s, i) => judgedPoint(frame, best, s, i));
  const deviation = (p: JudgedPoint): number => p.deviations ?? -1;
  const worst = points.reduce<JudgedPoint | null>(
    (w, p) => (p.deviations !== null && (!w || deviation(p) > deviation(w)) ? p : w),
    null,
  );
  return {
    fitted: true,
    camera: cameraOf(frame, best.numbers),
    frame,
    numbers: best.numbers,
    covariance: best.perPixel.map((row) => row.map((c) => c * best.noise ** 2)),
    noise: { pixels: best.noise, measured: best.noise !== noise },
    sightings,
    points,
    worst: worst?.id ?? null,
    warnings: [...layoutWarnings(used, wish.area ?? []), ...fitWarnings(best, points, noise, wish.lens)],
  };
}

/** Coordinates beyond this are no picture and no ring. */
const sane = (v: number): boolean => Number.isFinite(v) && Math.abs(v) < 1e6;

function whyUnclear(sightings: readonly Sighting[]): 'inLine' | 'unclear' {
  return layoutWarnings(sightings, []).length > 0 || threeInLine(sightings) ? 'inLine' : 'unclear';
}

/** Four points of which three lie in a line fix no camera. */
function threeInLine(sightings: readonly Sighting[]): boolean {
  return (
    sightings.length === 4 &&
    sightings.some(
      (s) =>
        layoutWarnings(
          sightings.filter((o) => o !== s),
          [],
        ).length > 0,
    )
  );
}

function bestLens(
  frame: Frame,
  sightings: readonly Sighting[],
  noise: number,
  lens: 'asTold' | 'straight',
): Agreed | Impossible | 'unclear' {
  let known: Starts | null = null;
  const starts = (): Starts => (known ??= startsOf(frame, sightings));
  let best = agreed(frame, sightings, 0, noise, starts);
  if (lens === 'straight') return best;
  for (const [numbers, least] of lensFrom) {
    if (sightings.length < least) break;
    const bent = agreed(frame, sightings, numbers, noise, starts);
    if (typeof bent === 'string' || bent.agrees.filter(Boolean).length < least) break;
    const unsure = bent.noise * Math.sqrt(bent.perPixel[8]?.[8] ?? Infinity);
    const folds = foldOf({ k1: bent.numbers[8] ?? 0, k2: bent.numbers[9] ?? 0 }) < 1.1;
    if (folds || (numbers === 1 && !(unsure <= lensUnsure))) break;
    if (typeof best === 'string' || gainOf(best, bent, noise) >= (numbers === 1 ? 0 : lensGain)) best = bent;
  }
  return best;
}

/** By how many deviations squared the points agree better; each that is set aside counts as the bound it broke. */
function gainOf(before: Agreed, after: Agreed, noise: number): number {
  const cut = wrongFrom(before.agrees.length);
  const cost = (a: Agreed): number =>
    a.squares / Math.max(noise, after.noise) ** 2 + cut * a.agrees.filter((is) => !is).length;
  return cost(before) - cost(after);
}

function judgedPoint(frame: Frame, best: Agreed, s: Sighting, i: number): JudgedPoint {
  const at = put(frame, best.numbers, s.ground);
  const off = best.off[i] ?? null;
  return {
    id: s.id,
    used: best.agrees[i] ?? false,
    off: { x: s.pixel.x - at.x, y: s.pixel.y - at.y },
    deviations: off === null ? null : Math.sqrt(off),
  };
}

function fitWarnings(
  { squares, freedom, agrees, numbers }: Agreed,
  points: readonly JudgedPoint[],
  noise: number,
  lens: FitWish['lens'],
): FitWarning[] {
  const used = agrees.filter(Boolean).length;
  const beyond = freedom > 0 && squares > noise ** 2 * chiSquareBound(freedom, onceInAThousand);
  const unchecked = points.filter((p) => p.used && p.deviations === null).map((p) => p.id);
  const all: readonly (FitWarning | false)[] = [
    (beyond || used < 0.6 * points.length) && { warning: 'disagree' },
    unchecked.length > 0 && { warning: 'unchecked', ids: unchecked },
    numbers.length === 8 && lens !== 'straight' && { warning: 'lensUnknown' },
  ];
  return all.filter((w) => w !== false);
}
