import { z } from 'zod';
import { refusalKinds } from '../course/refusals.ts';
import { crossKinds } from '../plan/plan.ts';

export const Id = z.string().min(1).max(80);
const Ticks = z.int();

/** What every mark has: the footage, the presentation time of the frame, and by how many frames it may be off. */
const marked = {
  id: Id,
  footageId: Id,
  pts: Ticks,
  unsure: z.int().min(0).max(10_000).default(0),
  note: z.string().max(2000).default(''),
};

/** An edge of an obstacle taken: in (take-off, entry, first paw on), out (landing, exit, last paw off), or one mark for both. */
export const TakenMark = z.strictObject({
  ...marked,
  kind: z.literal('taken'),
  place: z.int().min(1).max(200),
  edge: z.enum(['in', 'out', 'whole']),
  try: z.int().min(1).max(20).default(1),
});

/** Events that are noted at a frame. Own kinds are named by the id of an entry in the review's own events. */
export const eventKinds = [
  'barDown',
  'refusal',
  'offCourse',
  'missedEntry',
  'poppedOut',
  'missedContact',
  'wide',
  'lateCross',
  'happy',
  'worried',
  'reward',
  'clockStart',
  'clockStop',
  'note',
] as const;
export type EventKind = (typeof eventKinds)[number];

export const EventMark = z.strictObject({
  ...marked,
  kind: z.literal('event'),
  event: z.union([z.enum(eventKinds), z.string().startsWith('own:').max(80)]),
  place: z.int().min(1).max(200).optional(),
  refusal: z.enum(refusalKinds).optional(),
});

export const cueKinds = ['feet', 'shoulders', 'slowing', 'voice'] as const;
export type CueKind = (typeof cueKinds)[number];

/** A moment of a cross. `cueEnds`: the cross is finished, handler off the dog's line on the new side. */
export const crossParts = ['cueBegins', 'cueEnds', 'committed', 'takeOff', 'landing'] as const;
export type CrossPart = (typeof crossParts)[number];

export const CrossMark = z.strictObject({
  ...marked,
  kind: z.literal('cross'),
  crossId: Id,
  part: z.enum(crossParts),
  /** Which cue, on `cueBegins`. */
  cue: z.enum(cueKinds).optional(),
});

/** A moment at the start line. `shift`: weight or head moved, no paw. `step`: a paw moved: the stay is broken. */
export const startParts = ['setUp', 'fake', 'shift', 'step', 'release'] as const;
export type StartPart = (typeof startParts)[number];

export const StartMark = z.strictObject({
  ...marked,
  kind: z.literal('start'),
  part: z.enum(startParts),
  try: z.int().min(1).max(20).default(1),
});

export const Mark = z.discriminatedUnion('kind', [TakenMark, EventMark, CrossMark, StartMark]);
export type Mark = z.infer<typeof Mark>;
export type TakenMark = z.infer<typeof TakenMark>;
export type EventMark = z.infer<typeof EventMark>;
export type CrossMark = z.infer<typeof CrossMark>;
export type StartMark = z.infer<typeof StartMark>;

/** A cross as it happened; its moments are marks that carry its id. */
export const Cross = z.strictObject({
  id: Id,
  place: z.int().min(1).max(200),
  kind: z.enum(crossKinds),
  plannedId: Id.optional(),
  note: z.string().max(2000).default(''),
});
export type Cross = z.infer<typeof Cross>;

/** Pen strokes on a still. Points are fractions of the upright picture, as x1, y1, x2, y2 … */
export const Drawing = z.strictObject({
  id: Id,
  footageId: Id,
  pts: Ticks,
  strokes: z
    .array(
      z.strictObject({
        ink: z.enum(['persimmon', 'chalk', 'sky', 'sun']),
        points: z.array(z.number().min(-1).max(2)).min(4).max(20_000),
      }),
    )
    .max(500),
});
export type Drawing = z.infer<typeof Drawing>;
