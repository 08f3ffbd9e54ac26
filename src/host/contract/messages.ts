import { z } from 'zod';
import { Trouble } from './shapes.ts';

/**
 * The messages between a window and the host. Desktop and loopback carry the same messages, the one over the
 * shell's message port, the other over a web socket. `n` on asks is made by the window and answered in kind.
 */
export const WindowMessage = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('call'), n: z.int(), name: z.string(), args: z.unknown() }),
  /** Answered with the job's id; progress and end arrive on the `jobs` topic. */
  z.strictObject({ type: z.literal('start'), n: z.int(), name: z.string(), args: z.unknown() }),
  z.strictObject({ type: z.literal('subscribe'), n: z.int(), topic: z.string(), args: z.unknown() }),
  z.strictObject({ type: z.literal('unsubscribe'), n: z.int() }),
]);
export type WindowMessage = z.infer<typeof WindowMessage>;

export const HostMessage = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('answer'), n: z.int(), result: z.unknown() }),
  z.strictObject({ type: z.literal('trouble'), n: z.int(), trouble: Trouble }),
  /** `seq` counts 1, 2, 3 … per subscription. */
  z.strictObject({ type: z.literal('event'), n: z.int(), seq: z.int(), event: z.unknown() }),
]);
export type HostMessage = z.infer<typeof HostMessage>;

/** Largest message either side accepts, bytes of JSON. */
export const largestMessage = 32 * 1024 * 1024;
