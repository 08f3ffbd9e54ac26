import type { FrameTroubleCode } from './trouble.ts';
import type { FrameSpan, Rotation } from './frameWindow.ts';

/** From the window to the worker that decodes. */
export type ToWorker =
  | {
      readonly type: 'open';
      readonly url: string;
      readonly timeBase: readonly [num: number, den: number];
      readonly pts: Float64Array;
      readonly width: number;
      readonly height: number;
      readonly rotation: Rotation;
      readonly budget: number;
      readonly keysIn: FrameSpan | null;
      readonly quiet: number;
    }
  | { readonly type: 'show'; readonly index: number }
  /** A held key: the frame farthest on towards `target`, as far as they are there without a gap. */
  | { readonly type: 'travel'; readonly n: number; readonly by: 1 | -1; readonly target: number }
  | { readonly type: 'picture'; readonly n: number; readonly index: number; readonly maxWidth: number }
  | { readonly type: 'close' };

/** From the worker. `open` is the number of VideoFrames it holds. */
export type FromWorker =
  | { readonly type: 'opened'; readonly offset: number; readonly keys: readonly number[] }
  | { readonly type: 'refused'; readonly code: FrameTroubleCode; readonly detail: string }
  /** A frame asked for; it changes hands and must be closed by the receiver. */
  | { readonly type: 'frame'; readonly index: number; readonly frame: VideoFrame }
  /** The answer to `travel`; null while the next frame is not there. */
  | {
      readonly type: 'travelled';
      readonly n: number;
      readonly index: number;
      readonly frame: VideoFrame | null;
    }
  | {
      readonly type: 'lost';
      readonly index: number;
      readonly code: FrameTroubleCode;
      readonly detail: string;
    }
  | { readonly type: 'picture'; readonly n: number; readonly picture: ImageBitmap }
  | {
      readonly type: 'noPicture';
      readonly n: number;
      readonly index: number;
      readonly code: FrameTroubleCode;
      readonly detail: string;
    }
  | { readonly type: 'count'; readonly open: number; readonly bytes: number }
  | { readonly type: 'closed'; readonly open: number };
