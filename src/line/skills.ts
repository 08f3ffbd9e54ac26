import { z } from 'zod';
import { obstacleKinds } from '../course/kinds.ts';

/** So many tries, so many of them done as wanted. */
export const DoneOf = z
  .strictObject({ done: z.int().min(0).max(10_000), tried: z.int().min(0).max(10_000) })
  .refine((t) => t.done <= t.tried, 'more were done than were tried; correct one of the two figures');
export type DoneOf = z.infer<typeof DoneOf>;

/**
 * Side of a weave entry. The first pole stands at her left shoulder (common practice and rule): from the right of the
 * poles ("on") she runs past it and in, from the left ("off") she has to go round it first.
 */
export const entrySides = ['on', 'off'] as const;
export type EntrySide = (typeof entrySides)[number];

/** How far off the line of the poles she comes in, degrees: up to the first figure, the second, … */
export const entryBands = ['to30', 'to60', 'to90', 'over90'] as const;
export type EntryBand = (typeof entryBands)[number];

/** The band of an angle off the line of the poles, degrees. */
export function entryBand(degrees: number): EntryBand {
  const angle = Math.abs(degrees);
  return angle <= 30 ? 'to30' : angle <= 60 ? 'to60' : angle <= 90 ? 'to90' : 'over90';
}

const WeaveEntries = z
  .array(z.strictObject({ side: z.enum(entrySides), band: z.enum(entryBands), count: DoneOf }))
  .max(entrySides.length * entryBands.length)
  .refine(
    (all) => new Set(all.map((e) => `${e.side} ${e.band}`)).size === all.length,
    'a weave entry stands twice with the same side and angle; keep one of them',
  );

/** Farthest that a dog can be said to be sent, metres. */
export const farthestSent = 100;

/** What a dog can do, as far as her coach has noted it. What is absent is not known. */
export const DogSkills = z.strictObject({
  weaveEntries: WeaveEntries.default([]),
  /** Handler changes sides behind her as she goes into the poles. */
  rearCrossAtPoles: DoneOf.optional(),
  /** How far ahead of her handler she goes on to an obstacle, metres. */
  sentMetres: z.number().min(0).max(farthestSent).optional(),
  neverMet: z
    .array(z.enum(obstacleKinds).exclude(['unknown']))
    .max(obstacleKinds.length)
    .default([]),
  stay: DoneOf.optional(),
  /** Whether she turns on a word alone. */
  verbalTurns: z.strictObject({ left: z.boolean().optional(), right: z.boolean().optional() }).default({}),
});
export type DogSkills = z.infer<typeof DogSkills>;

/** What was counted of weave entries like this one; undefined where nothing was. */
export const entriesLike = (skills: DogSkills, side: EntrySide, degrees: number): DoneOf | undefined =>
  skills.weaveEntries.find((e) => e.side === side && e.band === entryBand(degrees))?.count;
