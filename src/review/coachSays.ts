import { z } from 'zod';
import { workThemes } from './workOn.ts';

const hundredth = 0.01;

/**
 * What the ring said of a run: the timekeeper's and the judge's figures. They are kept beside ours and never mixed
 * with them.
 */
export const Official = z.strictObject({
  /** Seconds. */
  time: z.number().min(hundredth).max(10_000).multipleOf(hundredth).optional(),
  /** Faults on the course, without those for time. */
  courseFaults: z.number().min(0).max(10_000).multipleOf(hundredth).optional(),
  eliminated: z.boolean().optional(),
});
export type Official = z.infer<typeof Official>;

/** A part of the course that the coach named: out of `from` to out of `to`; from 0 is from the start of the clock. */
export const Section = z
  .strictObject({
    id: z.string().min(1).max(80),
    name: z.string().trim().min(1).max(60),
    from: z.int().min(0).max(199),
    to: z.int().min(1).max(200),
  })
  .refine((s) => s.from < s.to, 'a section that ends before it begins');
export type Section = z.infer<typeof Section>;

/** Most sections that a run is parted into. */
export const mostSections = 40;

const Themes = z.array(z.enum(workThemes)).max(workThemes.length);

/** The coach's word on what to work on: what comes first whatever the run says, and what is not for now. */
export const WorkSaid = z.strictObject({ first: Themes.default([]), notNow: Themes.default([]) });
export type WorkSaid = z.infer<typeof WorkSaid>;
