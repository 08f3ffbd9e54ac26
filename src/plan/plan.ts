import { z } from 'zod';

/** Kinds of side change and turn cue a handler makes (design words). */
export const crossKinds = ['front', 'blind', 'rear', 'leadOutPivot', 'serpentine', 'threadle'] as const;
export type CrossKind = (typeof crossKinds)[number];

/** A side change that is planned at an obstacle. */
export const PlannedCross = z.strictObject({
  id: z.string().min(1).max(80),
  /** The number of the obstacle at which the cross is cued. */
  place: z.int().min(1).max(200),
  kind: z.enum(crossKinds),
  reason: z.string().max(500).default(''),
  /** What is done instead where the handler cannot get there ("front if I am ahead, else rear"). */
  secondChoice: z.enum(crossKinds).optional(),
});
export type PlannedCross = z.infer<typeof PlannedCross>;

/** How the team means to run the course. */
export const Plan = z.strictObject({
  crosses: z.array(PlannedCross).max(100).default([]),
  notes: z.string().max(4000).default(''),
});
export type Plan = z.infer<typeof Plan>;

export const emptyPlan = (): Plan => ({ crosses: [], notes: '' });
