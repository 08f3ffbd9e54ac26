import { z } from 'zod';
import { PicturePoint } from '../course/points.ts';
import { Part, partKey } from './parts.ts';

const id = z.string().min(1).max(80);

/** Most points that one fit can hold. */
export const mostFitPoints = 1000;

/** Where a part of the course was clicked on one frame. */
export const FitPoint = z.strictObject({
  part: Part,
  at: PicturePoint,
  /** Presentation time of the frame on which it was clicked. */
  pts: z.int(),
  /** The coach agreed to where the fit showed it, and did not click it: it is no evidence for the fit. */
  agreed: z.literal(true).optional(),
});
export type FitPoint = z.infer<typeof FitPoint>;

/**
 * The course fitted to the picture of one clip: what was clicked, from which the camera follows (fit.ts). A part may be
 * clicked again on a later frame, which tells whether the camera has moved since (bumped.ts).
 */
export const CourseFit = z.strictObject({
  id,
  footageId: id,
  points: z
    .array(FitPoint)
    .max(mostFitPoints)
    .refine((points) => {
      const seen = new Set(points.map((p) => `${p.pts} ${partKey(p.part)}`));
      return seen.size === points.length;
    }, 'a part that was clicked twice on one frame')
    .default([]),
  /** The frames it holds for, both included; absent where it holds for the whole clip. */
  span: z
    .strictObject({ from: z.int(), to: z.int() })
    .refine((span) => span.from <= span.to, 'a span that ends before it begins')
    .optional(),
});
export type CourseFit = z.infer<typeof CourseFit>;
