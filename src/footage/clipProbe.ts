import type { CaptureFact } from '../review/captureFacts.ts';

/** Containers that are taken. */
export type Container = 'mp4' | 'mov' | 'matroska' | 'webm' | 'avi' | 'mpegts';

/** Colour as stated by the stream, in ffmpeg's names of the code points of ITU-T H.273; null where it says nothing. */
export interface ColourFacts {
  readonly primaries: string | null;
  readonly transfer: string | null;
  readonly matrix: string | null;
  readonly range: 'limited' | 'full' | null;
}

export interface PictureFacts {
  /** Number of the stream in the file. */
  readonly stream: number;
  readonly codec: string;
  readonly profile: string | null;
  readonly pixelFormat: string;
  /** Bits a sample; null where the pixel format is not known. */
  readonly bitDepth: number | null;
  /** Picture as stored, before any turn, in stored pixels. */
  readonly coded: { readonly width: number; readonly height: number };
  /** Shape of a stored pixel, width to height. */
  readonly pixelShape: readonly [number, number];
  /** Upright picture in square pixels: what a working copy and a still show. */
  readonly width: number;
  readonly height: number;
  /** Clockwise turn that brings the stored picture upright. */
  readonly rotation: 0 | 90 | 180 | 270;
  readonly colour: ColourFacts;
  readonly interlaced: boolean;
  /** Seconds a tick, as a fraction. */
  readonly timeBase: readonly [number, number];
  /** Frames as the container states them. Never relied on. */
  readonly statedFrames: number | null;
}

export interface SoundFacts {
  readonly stream: number;
  readonly codec: string;
  readonly channels: number;
  readonly sampleRate: number;
}

/** What a video file says of itself. */
export interface ClipProbe {
  readonly path: string;
  readonly bytes: number;
  readonly container: Container;
  /** null where the file does not say. */
  readonly seconds: number | null;
  readonly picture: PictureFacts;
  /** The first sound that can be read. */
  readonly sound: SoundFacts | null;
  /** Pieces of the video's edit list (mp4, mov), else null. More than one: a plain player shows other times. */
  readonly editPieces: number | null;
  /** What it says of the speed at which it was filmed. */
  readonly capture: readonly CaptureFact[];
}
