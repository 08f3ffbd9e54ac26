import type { FrameTable } from '../time/frameTable.ts';
import type { FrameIndex } from '../time/units.ts';

/** Quarter turns clockwise that bring the stored picture upright. */
export type Rotation = 0 | 90 | 180 | 270;

/** A clip as the frame window needs it. */
export interface FrameSource {
  /** Same-origin address that answers byte ranges. */
  readonly url: string;
  readonly table: FrameTable;
  /** Pixels of the upright picture. */
  readonly width: number;
  readonly height: number;
  readonly rotation: Rotation;
}

/** Frames of a clip, both included. */
export interface FrameSpan {
  readonly from: number;
  readonly to: number;
}

/** How an ask for a frame ended: painted, or replaced by a later one. */
export type Outcome = 'shown' | 'overtaken';

/** A key held down: the picture travels frame by frame, each the frame it says it is, at a growing pace. */
export interface Travelling {
  /** Resolves when it has stopped: at the end, or where it was told to. Rejects with a FrameTrouble. */
  readonly done: Promise<void>;
  /** Stops on the frame on the canvas, which is then painted in full. */
  stop(): Promise<void>;
}

/** Shows exact frames of one clip on one canvas. Whoever asks for frame k gets frame k, never a neighbour. */
export interface FrameWindow {
  /**
   * Paints exactly this frame (clamped to the clip). `overtaken` when a later ask was painted first. Rejects with a
   * FrameTrouble where the frame cannot be had; the picture on the canvas then stays as it was.
   */
  seek(index: FrameIndex): Promise<Outcome>;
  /** Steps from the frame asked for last, which may not be on the canvas yet. Clamped to the clip. */
  step(by: number): Promise<Outcome>;
  /**
   * Travels from the frame asked for last up to `until`, until it is stopped or another frame is asked for. Pictures on
   * the way may be reduced to the size at which the canvas is seen.
   */
  travel(by: 1 | -1, until: FrameIndex): Travelling;
  /** The frame asked for last. */
  asked(): FrameIndex;
  /** The frame on the canvas; null before the first. */
  shown(): FrameIndex | null;
  /** Seconds from the table's clock to that of the file, as the demuxer found it; null where it is not known. */
  readonly offset: number | null;
  /** Frames that can be decoded without one before them, as far as they were asked for on opening; rising. */
  readonly keys: readonly number[];
  /** Called after each painting. Returns the way to stop listening. */
  onShown(listener: (index: FrameIndex) => void): () => void;
  /** A picture of exactly this frame, upright, at most `maxWidth` pixels wide. Yields to seeks. Close it after use. */
  picture(index: FrameIndex, maxWidth: number): Promise<ImageBitmap>;
  /** VideoFrames held open, in every thread. */
  openFrames(): number;
  /** Frees everything; resolves when the last VideoFrame is closed. Asks still open reject with `closed`. */
  close(): Promise<void>;
}

export interface FrameWindowOptions {
  /** Most bytes of decoded frames kept at one time. */
  readonly budget?: number;
  /** `decoding` (the rule), `video` (the browser's own player, checked), or `either`: the first that works. */
  readonly by?: 'decoding' | 'video' | 'either';
  /** Where a caller who is free to choose wants to know which frames are there soonest; see `keys`. */
  readonly keysIn?: FrameSpan;
  /** Milliseconds from opening during which nothing but what is asked for is decoded: other clips open beside it. */
  readonly quiet?: number;
}

/** Holds 180 full 1080p frames (3.1 MB each) and leaves room for those in the decoder's hands. */
export const defaultBudget = 600_000_000;

/** The nearest frame of the clip to a wish, whatever number that is. */
export function clampFrame(table: FrameTable, wish: number): FrameIndex {
  const last = table.pts.length - 1;
  const whole = Number.isNaN(wish) ? 0 : Math.round(wish);
  return Math.max(0, Math.min(last, whole)) as FrameIndex;
}
