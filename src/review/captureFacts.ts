import { z } from 'zod';

/**
 * What a file says of the speed at which it was filmed, as found in it. None of it is taken for true without being
 * asked: see captureFindings.
 */
export const CaptureFact = z.discriminatedUnion('fact', [
  /** Frames a second at the camera, as a key of the file states them. */
  z.strictObject({ fact: z.literal('captureFps'), key: z.string().max(120), fps: z.number() }),
  /** Whether the file asks to be played as fast as it was filmed, or slowed down. */
  z.strictObject({ fact: z.literal('playFullRate'), key: z.string().max(120), full: z.boolean() }),
  /** Rates other than 1 at which its edit list plays parts of it. */
  z.strictObject({ fact: z.literal('editRates'), rates: z.array(z.number()).max(100) }),
  /** Sound that is much shorter or longer than the pictures, seconds each. */
  z.strictObject({ fact: z.literal('soundLength'), sound: z.number(), picture: z.number() }),
]);
export type CaptureFact = z.infer<typeof CaptureFact>;
