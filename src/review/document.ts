import { z } from 'zod';
import { Course } from '../course/course.ts';
import { emptyPlan, Plan } from '../plan/plan.ts';
import { CourseFit } from '../ground/courseFit.ts';
import { Track } from '../track/track.ts';
import { mostSections, Official, ReportSays, Section, WorkSaid } from './coachSays.ts';
import { Cross, Drawing, Id, Mark } from './marks.ts';

/** How a clip lies on the clock of the run (design: three times that cannot be mixed). */
const clock = {
  /**
   * Capture speed, piece by piece: from media time `from` on, one second of the file is `speed` seconds at the
   * camera, plus or minus `plusMinus` (0 where it is not given). Empty means real time.
   */
  speed: z
    .array(
      z.strictObject({
        from: z.number().min(-1e7).max(1e7),
        speed: z.number().min(1e-4).max(1e4),
        plusMinus: z.number().min(0).max(1e4).optional(),
      }),
    )
    .max(1000)
    .default([]),
  /** Run time at capture time 0, seconds. */
  offset: z.number().min(-1e7).max(1e7).default(0),
  /** Run seconds per capture second. */
  rate: z.number().min(0.5).max(2).default(1),
};

/**
 * How a clip was brought onto the clock of another clip of the same run. A clip without it carries a clock of its own:
 * the first clip of a review, or one that nobody has lined up yet.
 */
export const LineUp = z.strictObject({
  /** The footage whose clock it was brought onto. */
  to: Id,
  /** By sound, or by a moment that both clips show. */
  by: z.enum(['sound', 'moment']),
  /** The clip lies within this many seconds of where it was put. */
  plusMinus: z.number().min(0).max(3600),
  /** By sound: metres between the cameras, as the coach stated them. */
  spacing: z.number().min(0).max(10_000).optional(),
});
export type LineUp = z.infer<typeof LineUp>;

/** The part of a clip that a review is about: presentation times of its first and last frame, both included. */
export const Cut = z
  .strictObject({ from: z.int(), to: z.int() })
  .refine((cut) => cut.from <= cut.to, 'a cut that ends before it begins');
export type Cut = z.infer<typeof Cut>;

/** A run found in a long clip: where it lies, whose it is, and the review that was made of it. */
export const RunInClip = z.strictObject({
  id: Id,
  from: z.int(),
  /** null while its end is not said yet. */
  to: z.int().nullable(),
  dog: z.string().max(80).default(''),
  handler: z.string().max(80).default(''),
  reviewId: z.string().max(80).optional(),
});
export type RunInClip = z.infer<typeof RunInClip>;

/** A clip as a review uses it. The clip itself (file, frames) lives in the library under `clipId`. */
export const FootageUse = z.strictObject({
  id: Id,
  clipId: Id,
  name: z.string().min(1).max(1024),
  ...clock,
  lineUp: LineUp.optional(),
  /** The part of the clip that this review is about; absent where it is about all of it. */
  cut: Cut.optional(),
  /** Runs found in a clip of several dogs, in the order they were found. */
  runs: z.array(RunInClip).max(200).optional(),
});
export type FootageUse = z.infer<typeof FootageUse>;

/** What a clip is, told so that a review file stands on its own: identity, picture, and every frame's time. */
export const ClipFacts = z.strictObject({
  sha256: z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in 64 small hexadecimal digits'),
  bytes: z.int().min(1),
  /** Where the file was last seen: relative to the review file, or absolute. Never exported in reports. */
  path: z.string().min(1).max(4096).optional(),
  width: z.int().min(1).max(32_768),
  height: z.int().min(1).max(32_768),
  rotation: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
  codec: z.string().max(80),
  timeBase: z.tuple([z.int().min(1), z.int().min(1)]),
  /** Presentation times of every frame in the ticks of the time base, strictly increasing. */
  pts: z.array(z.int()).min(1).max(5_000_000),
});
export type ClipFacts = z.infer<typeof ClipFacts>;

export const runKinds = ['training', 'trial', 'class'] as const;
export const stages = ['green', 'growing', 'finished'] as const;

/** What a review says about itself, the team and the run. */
export const Header = z.strictObject({
  title: z.string().min(1).max(200),
  dog: z.string().max(80).default(''),
  handler: z.string().max(80).default(''),
  stage: z.enum(stages).default('growing'),
  runKind: z.enum(runKinds).default('training'),
  /** Day of the run, as the coach writes it: YYYY-MM-DD, or empty. */
  day: z
    .string()
    .regex(/^(\d{4}-\d{2}-\d{2})?$/, 'a day as YYYY-MM-DD, or nothing')
    .default(''),
  /** One galloping stride of this dog, seconds: the time to gather that "in time" asks for. Assumed until measured. */
  strideSeconds: z.number().min(0.1).max(2).default(0.4),
  /** Event kinds of the coach's own: id starts with "own:". */
  ownEvents: z
    .array(z.strictObject({ id: z.string().startsWith('own:').max(80), label: z.string().min(1).max(60) }))
    .max(60)
    .default([]),
  /** The coach's own words for the report. */
  words: z
    .strictObject({
      wentWell: z.string().max(4000).default(''),
      toTrain: z.string().max(4000).default(''),
      notes: z.string().max(8000).default(''),
      leaveNamesOut: z.boolean().default(false),
    })
    .default({ wentWell: '', toTrain: '', notes: '', leaveNamesOut: false }),
  official: Official.optional(),
  sections: z.array(Section).max(mostSections).optional(),
  work: WorkSaid.optional(),
  report: ReportSays.optional(),
});
export type Header = z.infer<typeof Header>;

/** Most tracks that a review can hold. */
export const mostTracks = 200;
/** Most fits of the course to a picture that a review can hold. */
export const mostFits = 200;

export const reviewFormat = 'walkback.review';
/**
 * 2: footage tells how it was lined up. 3: a speed may carry its plus or minus, footage a cut and the runs found in
 * it. 4: a course may carry its head, its lines, sizes of equipment, backsides, wraps and the lie of its picture.
 * 5: a course may say how its rule book was called, what stood in it, and what its course times follow from.
 * 6: a plan tells its spots, sides, supports, wanted line and the handler's pace, and keeps other plans beside it;
 * body points of dog and handler are clicked as tracks, parts of the course as fits.
 * 7: a header may keep the ring's own figures, the coach's sections, and her word on what to work on.
 * 8: a header may keep the coach's hand in the report.
 */
export const reviewVersion = 8;

/** A review file: one JSON document that stands on its own. Its JSON Schema is printed by `walkback schema`. */
export const ReviewDocument = z.strictObject({
  format: z.literal(reviewFormat),
  version: z.literal(reviewVersion),
  id: Id,
  header: Header,
  course: Course.default({ name: '', obstacles: [], steps: [] }),
  plan: Plan.default(emptyPlan),
  footage: z
    .array(z.strictObject({ ...FootageUse.shape, clipId: Id.optional(), clip: ClipFacts }))
    .max(40)
    .default([]),
  marks: z.array(Mark).max(200_000).default([]),
  crosses: z.array(Cross).max(500).default([]),
  drawings: z.array(Drawing).max(5000).default([]),
  tracks: z.array(Track).max(mostTracks).default([]),
  fits: z.array(CourseFit).max(mostFits).default([]),
});
export type ReviewDocument = z.infer<typeof ReviewDocument>;
export type DocumentFootage = ReviewDocument['footage'][number];
