import type { Course } from '../../../../src/course/course.ts';
import type { PictureSize } from '../../../../src/course/pictureLay.ts';
import { clipFit } from '../../../../src/ground/clipFit.ts';
import type { CourseFit } from '../../../../src/ground/courseFit.ts';
import type { Fit } from '../../../../src/ground/fit.ts';
import { knownPoints } from '../../../../src/ground/knownPoints.ts';
import type { GroundView } from '../../../../src/track/fromMarks.ts';
import { groundViewOf } from '../../../../src/track/groundView.ts';

/** A course fitted to the picture of a clip, and for which of its frames. */
export interface GroundFit {
  readonly fit: Fit;
  readonly view: GroundView;
  /** Whether it holds for a frame, presentation time. */
  readonly holds: (pts: number) => boolean;
}

/** The fits of a clip that work out. @param course built by its rule book */
export function workedFits(
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
      const { span } = one;
      // From where the camera has been bumped on nothing is known of the ground.
      const until = off?.bump.verdict === 'moved' ? off.pts : Infinity;
      const holds = (pts: number): boolean => pts < until && (!span || (pts >= span.from && pts <= span.to));
      return [{ fit: result, view: groundViewOf(result), holds }];
    });
}

/**
 * The fit that lines are measured by: the one that holds for most of these marks. One fit serves a whole line, since
 * its error is shared; marks outside of it are left out.
 */
export function fitHoldingMost(worked: readonly GroundFit[], marked: readonly number[]): GroundFit | null {
  const held = ({ holds }: GroundFit): number => marked.filter(holds).length;
  return worked.reduce<GroundFit | null>((best, one) => (best && held(best) >= held(one) ? best : one), null);
}
