import { openDecodedWindow } from './decodedWindow.ts';
import type { FrameSource, FrameWindow, FrameWindowOptions } from './frameWindow.ts';

export type { FrameSource, FrameWindow, FrameWindowOptions, Outcome, Rotation } from './frameWindow.ts';

export async function openFrameWindow(
  source: FrameSource,
  canvas: HTMLCanvasElement,
  options: FrameWindowOptions = {},
): Promise<FrameWindow> {
  return openDecodedWindow(source, canvas, options);
}
