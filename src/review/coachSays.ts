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

/** Words of the coach in place of a sentence of the report. */
const OwnWords = z.strictObject({
  /** What of the report they stand for, as its model names it. */
  of: z.string().min(1).max(200),
  /** Nothing: the sentence is left out. */
  text: z.string().max(2000),
  /** The sentence as it was when she wrote hers: where it has changed since, she is told. */
  instead: z.string().max(4000),
});
export type OwnWords = z.infer<typeof OwnWords>;

/** The coach's hand in a report: stills left out, her words in place of ours, and notes for her own copy. */
export const ReportSays = z.strictObject({
  /** Stills that are left out, by the id of their mark or drawing. */
  without: z.array(z.string().min(1).max(80)).max(5000).default([]),
  own: z.array(OwnWords).max(1000).default([]),
  forCoach: z.string().max(8000).default(''),
});
export type ReportSays = z.infer<typeof ReportSays>;

/** The coach's hand in a report in which she has changed nothing. */
export const noSays: ReportSays = { without: [], own: [], forCoach: '' };
