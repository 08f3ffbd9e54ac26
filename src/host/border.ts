import { z } from 'zod';
import { HostMessage } from './contract/messages.ts';
import { Trouble } from './contract/shapes.ts';

/** How a host is opened: plain data, so that it can cross the border. */
export const HostSettings = z.strictObject({
  /** The library's folder. */
  folder: z.string().min(1),
  /** Which shell asks; told to the reader. */
  shell: z.string(),
  version: z.string(),
  /** True for shells whose paths come from the user's own dialog or command line. */
  trustedPaths: z.boolean(),
  /** Folders that a shell without trusted paths may name files in; by default the home and the current folder. */
  allowedFolders: z.array(z.string()).optional(),
  /** Largest upload, bytes. */
  largestUpload: z.number().positive().optional(),
  /** True where this is the throwaway library of the demo. */
  demo: z.boolean().optional(),
  /** True where a library that is opened for the first time gets the demo. */
  demoIfNew: z.boolean().optional(),
});
export type HostSettings = z.infer<typeof HostSettings>;

const seat = z.int();
const ask = z.int();

/** What a shell sends across the border to the host's process. */
export const ToHost = z.discriminatedUnion('frame', [
  z.strictObject({ frame: z.literal('open'), settings: HostSettings }),
  z.strictObject({ frame: z.literal('seat'), seat }),
  z.strictObject({ frame: z.literal('receive'), seat, message: z.unknown() }),
  z.strictObject({ frame: z.literal('leave'), seat }),
  z.strictObject({ frame: z.literal('media'), ask, mediaId: z.string() }),
  z.strictObject({ frame: z.literal('uploadTarget'), ask, uploadId: z.string() }),
  z.strictObject({ frame: z.literal('uploadEnded'), ask, uploadId: z.string(), complete: z.boolean() }),
  z.strictObject({ frame: z.literal('close'), ask }),
]);
export type ToHost = z.infer<typeof ToHost>;

/** What comes back. `awake` asks for `open`; `opened` or `refused` answers `open`; `reply` or `trouble` answers an ask. */
export const FromHost = z.discriminatedUnion('frame', [
  z.strictObject({ frame: z.literal('awake') }),
  z.strictObject({ frame: z.literal('opened') }),
  z.strictObject({ frame: z.literal('refused'), trouble: Trouble }),
  z.strictObject({ frame: z.literal('send'), seat, message: HostMessage }),
  z.strictObject({ frame: z.literal('reply'), ask, value: z.unknown() }),
  z.strictObject({ frame: z.literal('trouble'), ask, trouble: Trouble }),
]);
export type FromHost = z.infer<typeof FromHost>;

/** One end of a line between two processes. Frames are plain data. */
export interface FramePort<Out> {
  post(frame: Out): void;
  /** Called once. */
  listen(onFrame: (raw: unknown) => void): void;
}
