import { z } from 'zod';
import { GroundPoint } from '../course/points.ts';

/** Kinds of side change and turn cue a handler makes (design words). */
export const crossKinds = ['front', 'blind', 'rear', 'leadOutPivot', 'serpentine', 'threadle'] as const;
export type CrossKind = (typeof crossKinds)[number];

/** The side of the handler on which the dog is ("dog on my left"). */
export const sides = ['left', 'right'] as const;
export type Side = (typeof sides)[number];

const id = z.string().min(1).max(80);
const place = z.int().min(1).max(200);

/** A side change that is planned at an obstacle. */
export const PlannedCross = z.strictObject({
  id,
  /** The number of the obstacle at which the cross is cued. */
  place,
  kind: z.enum(crossKinds),
  reason: z.string().max(500).default(''),
  /** What is done instead where the handler cannot get there ("front if I am ahead, else rear"). */
  secondChoice: z.enum(crossKinds).optional(),
  /** Where the handler makes it: on the dog's line, or beside it. */
  at: GroundPoint.optional(),
  /** The same for the second choice. */
  secondAt: GroundPoint.optional(),
});
export type PlannedCross = z.infer<typeof PlannedCross>;

/** How long the handler stays with the dog at an obstacle: until she will take it, is in it, is out of it. */
export const supportEnds = ['committed', 'in', 'out'] as const;
export type SupportEnd = (typeof supportEnds)[number];

/** The handler stays with the dog at an obstacle, so that she takes it. */
export const Support = z.strictObject({
  id,
  place,
  until: z.enum(supportEnds),
  /** Where the handler stands meanwhile. */
  at: GroundPoint.optional(),
});
export type Support = z.infer<typeof Support>;

/** The side that the coach states for the stretch after a number; 0: from the start. */
export const StatedSide = z.strictObject({ after: z.int().min(0).max(200), side: z.enum(sides) });
export type StatedSide = z.infer<typeof StatedSide>;

/** Between which a handler's figures are believed; beyond, it is a slip of the keys (common sense). */
export const paceBounds = {
  topSpeed: { least: 0.5, most: 12 },
  pickUp: { least: 0.2, most: 15 },
  turnSeconds: { least: 0, most: 5 },
} as const;

const paceFigure = (name: keyof typeof paceBounds) =>
  z.number().min(paceBounds[name].least).max(paceBounds[name].most);

/** How a handler moves: metres a second, metres a second squared, and seconds for turning about in a cross. */
export const Pace = z.strictObject({
  topSpeed: paceFigure('topSpeed'),
  pickUp: paceFigure('pickUp'),
  turnSeconds: paceFigure('turnSeconds'),
});
export type Pace = z.infer<typeof Pace>;

/** One way in which the team may run the course. */
export const PlanSheet = z.strictObject({
  name: z.string().max(80).default(''),
  /** Where the dog waits. */
  wait: GroundPoint.optional(),
  /** Where the handler stands when she releases the dog. */
  leadOut: GroundPoint.optional(),
  sides: z.array(StatedSide).max(201).default([]),
  supports: z.array(Support).max(100).default([]),
  crosses: z.array(PlannedCross).max(100).default([]),
  /** The line that the coach wants, drawn through nodes. Absent: as computed. Tension 0: straight from node to node. */
  wantedLine: z
    .strictObject({ nodes: z.array(GroundPoint).min(2).max(200), tension: z.number().min(0).max(1) })
    .optional(),
  /** How this handler moves, where it is known. */
  pace: Pace.optional(),
  /** Where the dog is said to land, by number: the line goes on from there. */
  landings: z
    .array(z.strictObject({ number: place, at: GroundPoint }))
    .max(200)
    .optional(),
  notes: z.string().max(4000).default(''),
});
export type PlanSheet = z.infer<typeof PlanSheet>;

/** How the team means to run the course: the plan in use, and others that are kept beside it. */
export const Plan = z.strictObject({
  ...PlanSheet.shape,
  others: z.array(PlanSheet).max(12).default([]),
});
export type Plan = z.infer<typeof Plan>;

export const emptyPlan = (): Plan => ({
  name: '',
  sides: [],
  supports: [],
  crosses: [],
  notes: '',
  others: [],
});

/** The plan in use, then the others. */
export const sheetsOf = ({ others, ...inUse }: Plan): readonly PlanSheet[] => [inUse, ...others];

/** Every number that a plan and those beside it name: crosses, supports, stated sides and landings. */
export const placesOf = (plan: Plan): readonly number[] =>
  sheetsOf(plan).flatMap((s) => [
    ...s.crosses.map((cross) => cross.place),
    ...s.supports.map((support) => support.place),
    ...s.sides.map((stated) => stated.after),
    ...(s.landings ?? []).map((landing) => landing.number),
  ]);
