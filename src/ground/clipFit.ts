import type { PictureSize } from '../course/pictureLay.ts';
import { bumped, type Bump } from './bumped.ts';
import type { CourseFit, FitPoint } from './courseFit.ts';
import { fitCourse, type Fit, type FitWish, type NoFit } from './fit.ts';
import type { KnownPoint } from './knownPoints.ts';
import type { Sighting } from './model.ts';
import { partKey } from './parts.ts';

/** The clicks of one fit, worked out. */
export interface ClipFit {
  readonly result: Fit | NoFit;
  /** The click that counts for each part, by its key. */
  readonly counted: ReadonlyMap<string, FitPoint>;
  /** Clicks on parts that the course no longer has, or that do not stand on it. */
  readonly lost: readonly FitPoint[];
  /**
   * The first frame whose clicks do not lie where the fit of the frames before expects them. `moved`: the camera has
   * been bumped by then, and nothing is known of the ground from there on. `unclear`: one or two clicks cannot tell.
   * `onePoint`: the camera stands, one click is beside its spot.
   */
  readonly off: { readonly pts: number; readonly bump: Bump } | null;
}

/** The fit that holds for a frame: of those of its clip whose span has it, the one that begins last. */
export function fitHolding(
  fits: readonly CourseFit[],
  footageId: string,
  pts: number,
): CourseFit | undefined {
  return fits
    .filter((f) => f.footageId === footageId && (!f.span || (f.span.from <= pts && pts <= f.span.to)))
    .reduce<CourseFit | undefined>((last, f) => (last && beginOf(last) > beginOf(f) ? last : f), undefined);
}

const beginOf = (fit: CourseFit): number => fit.span?.from ?? -Infinity;

/**
 * The camera from the clicks of a fit. Clicks may lie on several frames: as long as those of a later frame lie where
 * the frames before expect them, they count with them; where they do not, the camera has moved. What the coach only
 * agreed to does not count.
 * @param known what the map knows (knownPoints), of the course built by its rule book
 */
export function clipFit(
  fit: Pick<CourseFit, 'points'>,
  known: readonly KnownPoint[],
  picture: PictureSize,
  wish: FitWish = {},
): ClipFit {
  const places = new Map(known.map((k) => [k.id, k.at]));
  const clicks = fit.points.filter((p) => p.agreed !== true);
  const lost = clicks.filter((p) => !places.has(partKey(p.part)));
  const counted = new Map<string, FitPoint>();
  const sighting = (p: FitPoint): Sighting[] => {
    const id = partKey(p.part);
    const ground = places.get(id);
    return ground ? [{ id, ground, pixel: { x: p.at.x * picture.width, y: p.at.y * picture.height } }] : [];
  };
  const solve = (): Fit | NoFit => fitCourse([...counted.values()].flatMap(sighting), picture, wish);
  let result: Fit | NoFit | null = null;
  let off: ClipFit['off'] = null;
  for (const pts of [...new Set(clicks.map((p) => p.pts))].toSorted((a, b) => a - b)) {
    const here = clicks.filter((p) => p.pts === pts && places.has(partKey(p.part)));
    if (here.length === 0) continue;
    const before = counted.size < 4 ? null : (result ??= solve());
    if (before?.fitted) {
      const bump = bumped(before, here.flatMap(sighting));
      if (bump.verdict === 'moved' || bump.verdict === 'unclear') {
        off = { pts, bump };
        break;
      }
      if (bump.verdict === 'onePoint') off ??= { pts, bump };
    }
    for (const p of here) if (!counted.has(partKey(p.part))) counted.set(partKey(p.part), p);
    result = null;
  }
  return { result: result ?? solve(), counted, lost, off };
}

/**
 * The camera's ground at a frame of a clip; null where no course is fitted there, or the camera has moved since.
 * @param known what the map knows (knownPoints), of the course built by its rule book
 * @param picture the clip's upright picture, pixels
 */
export function groundFitAt(
  fits: readonly CourseFit[],
  known: readonly KnownPoint[],
  picture: PictureSize,
  at: { readonly footageId: string; readonly pts: number },
): Fit | null {
  const holding = fitHolding(fits, at.footageId, at.pts);
  if (!holding) return null;
  const { result, off } = clipFit(holding, known, picture);
  const moved = off?.bump.verdict === 'moved' && at.pts >= off.pts;
  return result.fitted && !moved ? result : null;
}
