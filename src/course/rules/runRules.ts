import { z } from 'zod';
import { judgedRefusals } from '../refusals.ts';
import { BookId, entryOf } from './entry.ts';

/** What may cost faults. A run-out is a refusal. */
export const faultKinds = ['knockDown', 'missedContact', 'refusal', 'handlerTouch'] as const;
export type FaultKind = (typeof faultKinds)[number];

/** What ends a run. `refusals` and `overMaximumTime` follow from counts and clock; the others are called. */
export const eliminationKinds = [
  'refusals',
  'overMaximumTime',
  'wrongOrder',
  'wrongDirection',
  'forgottenObstacle',
  'collar',
  'objectInHand',
  'handlerTookObstacle',
  'fouledRing',
  'leftRing',
  'restarted',
  'destroyedNextObstacle',
] as const;

type OwnElimination = `own:${string}`;
const ownElimination = /^own:[\p{L}\p{N}][\p{L}\p{N} ._-]{0,39}$/u;
/** True for a reason of the book’s own. */
export const isOwnElimination = (text: string): text is OwnElimination => ownElimination.test(text);

/** A reason of the list, or one of the book's own: "own:" and a name. */
export const EliminationName = z.union([
  z.enum(eliminationKinds),
  // The pattern stands in the JSON Schema; the refinement carries it into the type.
  z.string().regex(ownElimination).refine(isOwnElimination),
]);
export type EliminationName = z.infer<typeof EliminationName>;

/** A trial counts; a class is taught, a training run is practised: what is a fault in one is the lesson in another. */
export const runKinds = ['trial', 'class', 'training'] as const;
export type RunKind = (typeof runKinds)[number];

export const contactKinds = ['aFrame', 'dogWalk', 'seeSaw'] as const;
export type ContactKind = (typeof contactKinds)[number];

export const disciplines = ['agility', 'jumping'] as const;
export type Discipline = (typeof disciplines)[number];

/** Faults: whole hundredths of a fault, from 0 to 100. */
export const Points = z.number().min(0).max(100).multipleOf(0.01);
const Seconds = z.number().min(0.01).max(10_000).multipleOf(0.01);
const Speed = z.number().min(0.1).max(20).multipleOf(0.01);
const Factor = z.number().min(0.1).max(10).multipleOf(0.01);

/** A time is brought to a whole multiple of so many seconds. */
const Rounding = z.strictObject({ toSeconds: Seconds, way: z.enum(['up', 'nearest', 'down']) });
export type Rounding = z.infer<typeof Rounding>;

/** How a course time comes about. */
export const TimeRule = z.discriminatedUnion('form', [
  /** Course length over a speed; without a speed, the one the judge chooses for the class. */
  z.strictObject({
    form: z.literal('lengthOverSpeed'),
    metresPerSecond: Speed.optional(),
    rounding: Rounding.optional(),
  }),
  /** The best dog's time and so many percent more. */
  z.strictObject({
    form: z.literal('bestTime'),
    addPercent: z.number().min(0).max(1000).multipleOf(0.01),
    rounding: Rounding.optional(),
  }),
  /** A multiple of the standard course time, never below another multiple. */
  z.strictObject({
    form: z.literal('timesStandard'),
    usual: Factor,
    least: Factor,
    rounding: Rounding.optional(),
  }),
  /** The judge states it. */
  z.strictObject({ form: z.literal('stated') }),
]);
export type TimeRule = z.infer<typeof TimeRule>;

/** A rule of course time and what it holds for; a list that is left out means all. */
const TimeRuleFor = z.strictObject({
  disciplines: z.array(z.enum(disciplines)).min(1).max(2).optional(),
  levels: z.array(BookId).min(1).max(30).optional(),
  rule: entryOf(TimeRule),
});
export type TimeRuleFor = z.infer<typeof TimeRuleFor>;

/** Standard and maximum course time. The first rule that holds for the discipline and the level counts. */
export const CourseTimes = z.strictObject({
  standard: z.array(TimeRuleFor).max(60).default([]),
  maximum: z.array(TimeRuleFor).max(60).default([]),
});

/**
 * Faults for time: `points` for each `perSeconds` over the course time. `exact` counts to hundredths (what is left
 * over is cut off), `begun` counts a begun unit whole, `full` counts whole units alone.
 */
export const TimeFaults = z.strictObject({
  points: Points,
  perSeconds: Seconds,
  counting: z.enum(['exact', 'begun', 'full']).default('exact'),
});
export type TimeFaults = z.infer<typeof TimeFaults>;

/** Which contact zones are judged. */
const JudgedContacts = z
  .array(z.strictObject({ kind: z.enum(contactKinds), up: z.boolean(), down: z.boolean() }))
  .max(contactKinds.length);

/** A class of result: up to and with so many faults in all. */
const ResultClass = z.strictObject({
  id: BookId,
  name: z.string().trim().min(1).max(60),
  upTo: z.number().min(0).max(10_000).multipleOf(0.01),
});
export type ResultClass = z.infer<typeof ResultClass>;

export const rankingKeys = ['total', 'courseFaults', 'timeFaults', 'refusals', 'time'] as const;
export type RankingKey = (typeof rankingKeys)[number];

const Ranking = z.strictObject({
  /** Compared in this order; less is better. */
  keys: z.array(z.enum(rankingKeys)).min(1).max(rankingKeys.length),
  /** What follows where every key is equal. */
  ties: z.enum(['equalPlace', 'runOff', 'equalPlaceOrRunOff']),
});

/** A level of competition and what does not count in it. */
const Level = z.strictObject({
  id: BookId,
  name: z.string().trim().min(1).max(60),
  beginners: z.boolean().default(false),
  notCounted: z
    .array(z.enum([...faultKinds, 'timeFaults']))
    .max(faultKinds.length + 1)
    .default([]),
});
export type Level = z.infer<typeof Level>;

/** What is different in a kind of run. */
const RunDifference = z.strictObject({
  /** Eliminations that are noted and end nothing. */
  setAside: z.array(EliminationName).max(100).default([]),
  /** Whether the run gets a class of result. */
  resultClass: z.boolean(),
});

/** How a run is scored. */
export const ScoringRules = z.strictObject({
  faults: z
    .strictObject({
      knockDown: entryOf(Points).optional(),
      missedContact: entryOf(Points).optional(),
      refusal: entryOf(Points).optional(),
      handlerTouch: entryOf(Points).optional(),
    })
    .default({}),
  /** What is a refusal. Each kind counts once, as one refusal. */
  refusals: entryOf(z.array(z.enum(judgedRefusals)).max(judgedRefusals.length)).optional(),
  /** The refusal of a run that ends it. */
  lastRefusal: entryOf(z.int().min(1).max(100)).optional(),
  contacts: entryOf(JudgedContacts).optional(),
  /** How many paws have to be on the ground before an obstacle is left. */
  pawsToLeave: entryOf(z.int().min(1).max(4)).optional(),
  eliminations: entryOf(z.array(EliminationName).max(100)).optional(),
  timeFaults: entryOf(TimeFaults).optional(),
  resultClasses: entryOf(z.array(ResultClass).max(30)).optional(),
  ranking: entryOf(Ranking).optional(),
  levels: z.array(entryOf(Level)).max(30).default([]),
  runs: z
    .strictObject({
      trial: entryOf(RunDifference).optional(),
      class: entryOf(RunDifference).optional(),
      training: entryOf(RunDifference).optional(),
    })
    .default({}),
});
export type ScoringRules = z.infer<typeof ScoringRules>;
