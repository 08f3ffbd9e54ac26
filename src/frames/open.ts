import { openDecodedWindow } from './decodedWindow.ts';
import type { FrameSource, FrameWindow, FrameWindowOptions } from './frameWindow.ts';
import { wantsWorkingCopy } from './trouble.ts';
import { openVideoWindow } from './videoWindow.ts';

export type { FrameSource, FrameWindow, FrameWindowOptions } from './frameWindow.ts';
export { wantsWorkingCopy } from './trouble.ts';

/**
 * Opens a frame window on a canvas, which takes the size of the upright picture. Rejects with a FrameTrouble;
 * `wantsWorkingCopy` tells whether a working copy would help. With `by: 'either'` the browser's own player, checked
 * frame by frame, stands in where the clip cannot be decoded.
 */
export async function openFrameWindow(
  source: FrameSource,
  canvas: HTMLCanvasElement,
  options: FrameWindowOptions = {},
): Promise<FrameWindow> {
  if (options.by === 'video') return openVideoWindow(source, canvas);
  try {
    return await openDecodedWindow(source, canvas, options);
  } catch (error) {
    if (options.by !== 'either' || !wantsWorkingCopy(error)) throw error;
    // Why it could not be decoded says more to the reader than why it cannot be played either.
    return openVideoWindow(source, canvas).catch(() => {
      throw error;
    });
  }
}
