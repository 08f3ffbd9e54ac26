import { frameWords } from '../words/frames.ts';

/**
 * Why a frame cannot be shown. `cannotDecode` and `misaligned` ask for a working copy; `cannotPlay` is playback;
 * `damaged` and `unsure` concern one frame; `unreachable` the file; `closed` came too late.
 */
export type FrameTroubleCode =
  'cannotDecode' | 'misaligned' | 'unreachable' | 'damaged' | 'cannotPlay' | 'unsure' | 'closed';

/** An error of the frame window. Its message is written for the reader; `detail` is for the log. */
export class FrameTrouble extends Error {
  readonly code: FrameTroubleCode;
  readonly detail: string;

  constructor(code: FrameTroubleCode, detail = '', index = 0) {
    const words = frameWords[code];
    super(typeof words === 'string' ? words : words(index));
    this.name = 'FrameTrouble';
    this.code = code;
    this.detail = detail;
  }
}

/** True where a working copy of the clip would help. */
export function wantsWorkingCopy(error: unknown): boolean {
  return error instanceof FrameTrouble && (error.code === 'cannotDecode' || error.code === 'misaligned');
}
