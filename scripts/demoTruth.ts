import { z } from 'zod';

/** The parts of a truth file (scripts/simulator/TRUTH.md) that marks are made from. */
const Moment = z.object({
  at: z.number(),
  seen: z.enum(['first', 'last']),
  pts: z.int().nullable(),
});
export type TruthMoment = z.infer<typeof Moment>;

const Named = z.object({ kind: z.string(), begin: Moment });

const Touch = z.tuple([z.number(), z.number(), z.number(), z.number(), z.number()]);
const Touches = z.array(Touch);

export const RunTruth = z.object({
  camera: z.object({ width: z.number(), height: z.number(), matrix: z.array(z.array(z.number())) }),
  dog: z.object({ doing: z.array(z.int()) }),
  /** Touch, lift, x, y, z. */
  contacts: z.object({ leftFront: Touches, rightFront: Touches, leftHind: Touches, rightHind: Touches }),
  /** Touch, lift, x, y, where the foot points. */
  footfalls: z.object({ left: Touches, right: Touches }),
  name: z.string(),
  film: z.string(),
  frames: z.object({ timeBase: z.tuple([z.int(), z.int()]), pts: z.array(z.int()) }),
  runClock: z.object({ from: Moment, to: Moment }),
  start: z.object({
    tries: z.array(
      z.object({
        try: z.int(),
        setUp: Moment,
        fakes: z.array(z.object({ begin: Moment })),
        shift: Moment.nullable(),
        step: Moment.nullable(),
        release: Moment.nullable(),
      }),
    ),
  }),
  taken: z.array(z.object({ place: z.int(), try: z.int(), obstacleId: z.string(), in: Moment, out: Moment })),
  events: z.array(z.object({ kind: z.string(), place: z.int().nullable(), try: z.int(), moment: Moment })),
  crosses: z.array(
    z.object({
      place: z.int(),
      kind: z.enum(['front', 'rear', 'blind']),
      cues: z.array(Named),
      begun: Moment,
      finished: Moment.nullable(),
      committedToObstacle: Moment.nullable(),
      takeOff: Moment.nullable(),
      landing: Moment.nullable(),
    }),
  ),
});
export type RunTruth = z.infer<typeof RunTruth>;

export const CourseTruth = z.object({
  name: z.string(),
  ring: z.object({ length: z.number(), depth: z.number() }),
  obstacles: z.array(
    z.object({
      id: z.string(),
      kind: z.string(),
      nickname: z.string(),
      x: z.number(),
      y: z.number(),
      angle: z.number(),
      sizes: z.record(z.string(), z.number()),
      bends: z.array(z.object({ x: z.number(), y: z.number() })).nullable(),
    }),
  ),
  sequence: z.array(z.object({ number: z.int(), obstacleId: z.string(), reversed: z.boolean() })),
});
export type CourseTruth = z.infer<typeof CourseTruth>;
