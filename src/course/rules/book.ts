import { z } from 'zod';
import { obstacleKinds } from '../kinds.ts';
import { BookId, entryOf, Range, RangeByCategory } from './entry.ts';
import { EquipmentRules } from './equipment.ts';
import { CourseTimes, ScoringRules } from './runRules.ts';

export const ruleBookFormat = 'walkback.rules';
export const ruleBookVersion = 1;

const withers = z.number().min(0).max(200);

/** A height category: dogs from so many cm at the withers, and below so many; the highest has no end. */
const Category = z.strictObject({
  id: BookId,
  name: z.string().trim().min(1).max(60),
  from: withers,
  below: withers.nullable(),
});
export type Category = z.infer<typeof Category>;

const obstacles = z.int().min(0).max(200);
const side = z.number().min(1).max(500);

/** What the course as a whole has to be. */
export const CourseRules = z.strictObject({
  /** How many numbers a course has. */
  obstacles: entryOf(z.strictObject({ least: obstacles.optional(), most: obstacles.optional() })).optional(),
  /** How many of them are hurdles at the least, and which kinds are hurdles. */
  hurdles: entryOf(
    z.strictObject({
      least: obstacles,
      kinds: z.array(z.enum(obstacleKinds)).min(1).max(obstacleKinds.length),
    }),
  ).optional(),
  /**
   * Metres from an obstacle to the next, by category, in a straight line: from centre to centre, or from where the
   * one ends to where the next begins.
   */
  spacing: entryOf(
    z.strictObject({ measured: z.enum(['centres', 'ends']), byCategory: RangeByCategory }),
  ).optional(),
  /** The least ring, metres. */
  ring: entryOf(z.strictObject({ width: side, length: side })).optional(),
  /** The area within the ring that the course is laid in, metres. */
  area: entryOf(z.strictObject({ width: side, length: side })).optional(),
  /** Limits of the length of the course, metres. */
  length: entryOf(Range).optional(),
  /** How the length is measured: straight from centre to centre, or with a wheel along the path dogs will take. */
  lengthMeasured: entryOf(z.enum(['centres', 'wheelPath'])).optional(),
});

/** A rule book. One unit each: dogs and equipment in centimetres, ground in metres, time in seconds. */
export const RuleBook = z.strictObject({
  format: z.literal(ruleBookFormat),
  version: z.literal(ruleBookVersion),
  id: BookId,
  name: z.string().trim().min(1).max(120),
  about: z.string().max(2000).default(''),
  categories: entryOf(z.array(Category).min(1).max(20)).optional(),
  /** Heights of bars by category, cm. */
  bars: entryOf(RangeByCategory).optional(),
  course: CourseRules.default({}),
  times: CourseTimes.default({ standard: [], maximum: [] }),
  equipment: EquipmentRules.default({}),
  scoring: ScoringRules.default({ faults: {}, levels: [], runs: {} }),
});
export type RuleBook = z.infer<typeof RuleBook>;
/** A rule book as it may be written: what has a default may be left out. */
export type RuleBookInput = z.input<typeof RuleBook>;
