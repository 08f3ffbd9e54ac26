import type { Course } from '../../course/course.ts';
import type { PictureSize } from '../../course/pictureLay.ts';
import type { GroundPoint } from '../../course/points.ts';
import type { Analysis } from '../../review/analysis.ts';
import type { ReviewState } from '../../review/entities.ts';
import type { Clocks } from '../../review/moments.ts';

/** A run and all that is known of it, as a clip of it needs it. */
export interface RunAtHand {
  readonly review: ReviewState;
  readonly clocks: Clocks;
  readonly analysis: Analysis;
  /** The course, built by its rule book. */
  readonly course: Course;
  /** Upright pictures of its clips, pixels, by footage. */
  readonly pictures: ReadonlyMap<string, PictureSize>;
  /** The dog's likely line, in its pieces; empty where nobody asks for it. */
  readonly likely: readonly (readonly GroundPoint[])[];
}
