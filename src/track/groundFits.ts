import type { Course } from '../course/course.ts';
import type { PictureSize } from '../course/pictureLay.ts';
import { clipFit, fitHolding } from '../ground/clipFit.ts';
import type { CourseFit } from '../ground/courseFit.ts';
import type { Fit } from '../ground/fit.ts';
import { knownPoints } from '../ground/knownPoints.ts';
import type { GroundView } from './fromMarks.ts';
import { groundViewOf } from './groundView.ts';

/** A course fitted to the picture of a clip, and for which of its frames. */
export interface GroundFit {
  readonly footageId: string;
  readonly fit: Fit;
  readonly view: GroundView;
  /** Whether it holds for a frame, presentation time. */
  readonly holds: (pts: number) => boolean;
}

/** The fits of a clip that work out; no two hold for one frame. @param course built by its rule book */
export function groundFits(
  fits: readonly CourseFit[],
  course: Course,
  picture: PictureSize,
  footageId: string,
): readonly GroundFit[] {
  const known = knownPoints(course);
  return fits
    .filter((f) => f.footageId === footageId)
    .flatMap((one): GroundFit[] => {
      const { result, off } = clipFit(one, known, picture);
      if (!result.fitted) return [];
      // From where the camera has been bumped on nothing is known of the ground.
      const until = off?.bump.verdict === 'moved' ? off.pts : Infinity;
      const holds = (pts: number): boolean => pts < until && fitHolding(fits, footageId, pts)?.id === one.id;
      return [{ footageId, fit: result, view: groundViewOf(result), holds }];
    });
}

/** The fit that holds for most of these marks. */
export function fitHoldingMost(worked: readonly GroundFit[], marked: readonly number[]): GroundFit | null {
  const held = ({ holds }: GroundFit): number => marked.filter(holds).length;
  return worked.reduce<GroundFit | null>((best, one) => (best && held(best) >= held(one) ? best : one), null);
}
