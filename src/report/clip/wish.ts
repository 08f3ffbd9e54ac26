import { z } from 'zod';

const Id = z.string().min(1).max(80);
/** Presentation times of a first and a last frame. */
const Part = z.strictObject({ from: z.int(), to: z.int() });

/** What may be laid over a clip. */
export const overlayNames = ['numbers', 'wanted', 'likely', 'real', 'captions', 'drawings'] as const;

/** Longest that a caption may be: more cannot be read while a frame is held. */
export const longestCaption = 300;
/** Longest that a frame may be held, seconds. */
export const longestFreeze = 20;

/** What a clip is a clip of, for its name. */
export const ClipKind = z.union([
  z.enum(['short', 'range', 'beside']),
  z.strictObject({ cross: z.int().min(1).max(200) }),
  z.strictObject({ stretch: z.int().min(1).max(200) }),
]);
export type ClipKind = z.infer<typeof ClipKind>;

/** A clip to hand over, as a coach asks for it. */
export const ClipWish = z.strictObject({
  reviewId: Id,
  footageId: Id,
  /** What is shown of the footage: each part after the one before. */
  parts: z.array(Part).min(1).max(20),
  /** What of that is slowed, and to which share of real time. */
  slow: z.array(Part.extend({ speed: z.literal([1 / 2, 1 / 4, 1 / 8]) })).max(20),
  /** Frames that are held, each with the words that stand under it. */
  freezes: z
    .array(
      z.strictObject({
        pts: z.int(),
        seconds: z.number().min(0.2).max(longestFreeze),
        caption: z.string().max(longestCaption),
      }),
    )
    .max(20),
  overlays: z.strictObject({
    numbers: z.boolean(),
    wanted: z.boolean(),
    likely: z.boolean(),
    real: z.boolean(),
    captions: z.boolean(),
    drawings: z.boolean(),
  }),
  /** Keep the sound where the clip runs at real speed; it is silent elsewhere. */
  sound: z.boolean(),
  /** Another run beside it, held to it. */
  beside: z.strictObject({ reviewId: Id, footageId: Id, lock: z.enum(['place', 'clock']) }).optional(),
});
export type ClipWish = z.infer<typeof ClipWish>;
