import type { CaptureFact } from '../review/captureFacts.ts';
import type { FrameTable } from '../time/frameTable.ts';
import type { SoundTrack } from '../time/lineUp/soundTrack.ts';

/** What the host asks of the footage room (src/footage), and what tests put in its place. */
export interface FootageRoom {
  /** Which ffmpeg is used, for the reader: version and where it lies. */
  about(): Promise<string>;
  /** What a video file says of itself. Throws an error with a code and a sentence where there is no video in it. */
  probe(path: string, signal: AbortSignal): Promise<FootageFacts>;
  /** Every frame's presentation time, as decoded. `share` (0 to 1) is null where the length is not known. */
  indexFrames(
    path: string,
    signal: AbortSignal,
    onProgress: (frames: number, share: number | null) => void,
  ): Promise<IndexedFrames>;
  /** SHA-256 of the content, in small hexadecimal digits. */
  contentHash(
    path: string,
    signal: AbortSignal,
    onProgress: (bytes: number, of: number) => void,
  ): Promise<string>;
  /**
   * Makes an upright copy that the window can decode, with the same frames at the same times. Written to a temporary
   * name beside `to` and moved into place when it was checked. Returns the ticks to add to the original's times and
   * the size of its picture. With `fields`, `frames` are half-pictures, and each becomes a frame.
   */
  makeWorkingCopy(
    from: string,
    to: string,
    frames: FrameTable,
    fields: boolean,
    signal: AbortSignal,
    onProgress: (done: number, of: number) => void,
  ): Promise<MadeCopy>;
  /**
   * The sound of a clip on the clock of its frames, one channel, cut to a length a line-up can work with; `from` and
   * `seconds` choose a part of it (media time). Empty where there is none.
   */
  sound(
    path: string,
    frames: FrameTable,
    part: { readonly from: number; readonly seconds: number },
    signal: AbortSignal,
  ): Promise<SoundTrack>;
  /**
   * Writes a clip to hand over, every picture exactly the frame asked for; under a temporary name beside `to` until it
   * is whole. Returns the bytes written.
   */
  makeClip(
    order: ClipOrder,
    to: string,
    signal: AbortSignal,
    onProgress: (done: number, of: number) => void,
  ): Promise<number>;
  /** One frame as a JPEG, at most `width` wide, for the report. */
  still(
    path: string,
    frames: FrameTable,
    frame: number,
    width: number,
    signal: AbortSignal,
  ): Promise<Uint8Array>;
}

/** A clip to hand over, picture by picture. */
export interface ClipOrder {
  /** One run, or two side by side. */
  readonly lanes: readonly {
    readonly path: string;
    readonly table: FrameTable;
    /** Frames that are read, by their indices in the table, both ends included. */
    readonly parts: readonly { readonly from: number; readonly to: number }[];
    /** Frames that are shown, and with which picture of the clip each begins. */
    readonly shots: readonly { readonly frame: number; readonly at: number }[];
    readonly size: { readonly width: number; readonly height: number };
  }[];
  /** Pictures a second. */
  readonly rate: { readonly num: number; readonly den: number };
  /** Pictures in all. */
  readonly ticks: number;
  readonly size: { readonly width: number; readonly height: number };
  /**
   * Works out what is laid over; null where nothing is. Asked for once, while the programs are looking at the files: it
   * takes as long as they do.
   */
  readonly layers: () => ClipLayers | null;
  /** Sound of the first lane from a frame on, or silence; seconds. */
  readonly sound: readonly (
    { readonly frame: number; readonly seconds: number } | { readonly silence: number }
  )[];
}

/** Pictures that are laid over a clip. */
export interface ClipLayers {
  /** The picture of the clip with which each begins; the first from the start. */
  readonly at: readonly number[];
  /** Their pixels, of the whole size: RGBA, straight alpha. Painted as they are asked for. */
  readonly pictures: Iterable<Uint8Array>;
}

export interface IndexedFrames {
  readonly table: FrameTable;
  /** Why a working copy would be easier to step through, as a key of the catalogue, or null. */
  readonly slow: string | null;
}

export interface MadeCopy {
  readonly bytes: number;
  readonly shift: number;
  readonly width: number;
  readonly height: number;
}

export interface FootageFacts {
  /** Pixels of the upright picture. */
  readonly width: number;
  readonly height: number;
  readonly rotation: 0 | 90 | 180 | 270;
  readonly container: string;
  readonly codec: string;
  readonly pixelFormat: string;
  readonly sound: string | null;
  /** null where the file does not say. */
  readonly seconds: number | null;
  /** null where the window can decode the file as it is; else why not, as a key of the catalogue. */
  readonly needsCopy: string | null;
  readonly interlaced: boolean;
  /** What the file says of the speed at which it was filmed. */
  readonly capture?: readonly CaptureFact[];
}
