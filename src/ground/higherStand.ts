import { inPicture, project } from './camera.ts';
import type { Allowances } from './allowances.ts';
import type { Fit } from './fit.ts';
import type { View } from './groundError.ts';
import { lensShift, lensUnknownIn } from './lensUnknown.ts';
import { cameraOf, numbersOf, type Sighting } from './model.ts';
import { atHeight, mapOf, pinholeOf } from './pinhole.ts';
import { refined } from './refine.ts';

/** What a camera would see from another height, and how well. */
export type HigherStand =
  | {
      readonly known: true;
      readonly view: View & Pick<Allowances, 'bends'>;
      /** Height of the camera above the ground now, metres. */
      readonly heightNow: number;
      /** Points of the fit that would no longer be on the picture. */
      readonly lost: readonly string[];
    }
  /** `focalUnknown`: the picture does not tell the focal length, nor therefore the height. `tooFew`: points left. */
  | { readonly known: false; readonly why: 'focalUnknown' | 'tooFew' };

/**
 * The same fit as it would come out from another height over the same spot: the same phone and field of view, tilted so
 * that the middle of the clicked points stays where it is in the picture, the same points clicked as well as now. Where
 * the camera stands follows from the fit, as `pinholeOf` assumes.
 * @param height metres above the ground
 * @param focal pixels, where it is known otherwise
 */
export function higherStand(fit: Fit, height: number, focal?: number): HigherStand {
  const now = pinholeOf(fit, focal);
  if (!now || !(height > 0) || !Number.isFinite(height)) return { known: false, why: 'focalUnknown' };
  const { frame, camera, noise } = fit;
  const { width, height: tall } = camera.picture;
  const used = fit.sightings.filter((_, i) => fit.points[i]?.used);
  const aim = frame.middle;
  const map = mapOf(atHeight(now, height, aim), { x: width / 2, y: tall / 2 });
  const numbers = [...numbersOf(frame, map), ...fit.numbers.slice(8)];
  const raised = cameraOf(frame, numbers);
  const seen = used.flatMap((s): Sighting[] => {
    const pixel = project(raised, s.ground);
    return pixel && inPicture(camera.picture, pixel) ? [{ ...s, pixel }] : [];
  });
  const again = 2 * seen.length >= numbers.length ? refined(frame, seen, numbers) : null;
  if (!again) return { known: false, why: 'tooFew' };
  const covariance = again.perPixel.map((row) => row.map((c) => c * noise.pixels ** 2));
  const view = { camera: raised, frame, numbers, covariance, noise };
  const bends = lensUnknownIn(fit)
    ? lensShift(
        view,
        seen.map((s) => s.ground),
      )
    : null;
  return {
    known: true,
    view: { ...view, bends },
    heightNow: now.at.z,
    lost: used.filter((s) => !seen.some((o) => o.id === s.id)).map((s) => s.id),
  };
}
