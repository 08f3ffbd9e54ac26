import path from 'node:path';
import type { FrameTable } from '../time/frameTable.ts';
import { footageWords } from '../words/footage.ts';
import type { ClipProbe } from './clipProbe.ts';
import { giveLastPictureItsDuration } from './container/lastDuration.ts';
import { colourKept } from './colourKept.ts';
import { checkCopy, evenGap } from './copyCheck.ts';
import { largeSide } from './decodable.ts';
import { indexFrames } from './frameIndex.ts';
import { probe } from './probe.ts';
import { runFfmpeg } from './programs/ffmpeg.ts';
import { encodingTrouble } from './programs/encodingTrouble.ts';
import { cancelled, FootageError, shownName } from './trouble.ts';
import { makeBeside } from './unfinished.ts';
import { risingOnly, uprightFilters } from './upright.ts';

/** Frames from key frame to key frame in a copy: any frame is reached by decoding a dozen. */
export const copyKeyDistance = 12;
/** Longer side of the copy of a 4K clip. Smaller clips keep their size. Lines and drawings are relative to the side. */
export const reducedSide = 1920;

/** A copy that was made, checked and moved into place. */
export interface WorkingCopy {
  readonly bytes: number;
  /**
   * Ticks of the original's time base to add to a time of the original for the time in the copy. A copy starts at 0,
   * so this is the first frame's time turned negative; 0 for most clips.
   */
  readonly shift: number;
  /** Whether the clip's sound came along. */
  readonly sound: boolean;
  /**
   * Size of the copy's picture: upright, square pixels, rounded up to even numbers at the right and the bottom; the
   * whole picture scaled to `reducedSide` where a clip is 4K or more.
   */
  readonly width: number;
  readonly height: number;
}

export interface CopyOptions {
  readonly signal?: AbortSignal;
  /** Told the work done and the whole of it, in frames: the copy is written, then read back to be checked. */
  readonly onProgress?: (done: number, of: number) => void;
  readonly facts?: ClipProbe;
  /** The table is one of half-pictures (`fieldsOf`): each becomes a frame of the copy. */
  readonly fields?: boolean;
}

/** One way to make a copy. */
interface Way {
  readonly sound: boolean;
  /** Where the decoder's own times fail: every frame this many ticks after the one before. */
  readonly gap: number | null;
}

/**
 * Makes a copy of a clip that the window can decode (H.264, 8 bits, upright, a key frame every 12 frames and no
 * B-frames) with the frames of `table` and no others, at the same times. It is written under a temporary name beside
 * `out`, decoded again, compared with `table` frame by frame, and only then moved to `out`; on any error nothing
 * is left there, and a file that stood there before stays.
 * Throws a FootageError: cancelled, noSpace, notFound (original or folder), damaged (no way gave an equal copy), and
 * those of `probe`.
 */
export async function makeWorkingCopy(
  file: string,
  table: FrameTable,
  out: string,
  options: CopyOptions = {},
): Promise<WorkingCopy> {
  const name = shownName(file);
  const facts = options.facts ?? (await probe(file, options.signal ? { signal: options.signal } : {}));
  const folder = path.dirname(path.resolve(out));
  try {
    const { bytes, told } = await makeBeside(out, file, options.signal, async (free) => {
      let failure: FootageError | undefined;
      for (const way of waysFor(facts, table)) {
        try {
          return { file: free, told: await attempt(facts, table, free, way, options) };
        } catch (error) {
          const known = toFootageError(error, file, folder);
          if (known.code !== 'damaged') throw known;
          // The first way's reason is the telling one.
          failure ??= known;
        }
      }
      throw failure ?? new FootageError('internal', footageWords.copyFailed(name, ''));
    });
    return { ...told, bytes };
  } catch (error) {
    throw toFootageError(error, file, folder);
  }
}

function waysFor(facts: ClipProbe, table: FrameTable): Way[] {
  const sound = facts.sound !== null;
  const gap = evenGap(table);
  const ways: Way[] = [{ sound, gap: null }];
  // Where a container keeps no times (AVI), two runs of the decoder need not guess alike: then frames are counted.
  if (gap !== null) ways.push({ sound, gap });
  if (sound) ways.push({ sound: false, gap: null });
  return ways;
}

async function attempt(
  facts: ClipProbe,
  table: FrameTable,
  temporary: string,
  way: Way,
  options: CopyOptions,
): Promise<Omit<WorkingCopy, 'bytes'>> {
  const { signal, onProgress } = options;
  const name = shownName(facts.path);
  const frames = table.pts.length;
  const size = copySize(facts.picture);
  const fields = options.fields === true;
  await runFfmpeg({
    from: facts.path,
    reading: copyReading(table),
    writing: copyWriting(facts, table, way, size, fields),
    to: temporary,
    signal,
    background: true,
    onFrames: (done) => onProgress?.(Math.min(done, frames), frames * 2),
  });
  await giveLastPictureItsDuration(temporary);
  const copy = await indexFrames(temporary, {
    ...(signal ? { signal } : {}),
    onProgress: (done) => onProgress?.(frames + Math.min(done, frames), frames * 2),
  }).catch((error: unknown) => {
    if (signal?.aborted) throw cancelled(facts.path);
    // The reader knows the clip, not the temporary name.
    const reason = error instanceof Error ? error.message : String(error);
    throw new FootageError('damaged', footageWords.copyFailed(name, reason), error);
  });
  const check = checkCopy(table, copy.table);
  if (!check.equal) {
    const what =
      'count' in check ? footageWords.copyCount(...check.count) : footageWords.copyTime(check.frame);
    throw new FootageError('damaged', footageWords.copyDiffers(name, what));
  }
  return { shift: check.shift, sound: way.sound, ...size };
}

/** Size of a copy's picture, even on both sides as its pixel format asks. */
export function copySize(picture: { readonly width: number; readonly height: number }): {
  width: number;
  height: number;
} {
  const { width, height } = picture;
  const longer = Math.max(width, height);
  if (longer < largeSide) return { width: width + (width % 2), height: height + (height % 2) };
  const scaled = (side: number): number => Math.max(2, 2 * Math.round((side * reducedSide) / longer / 2));
  return { width: scaled(width), height: scaled(height) };
}

/**
 * The clip's own clock is kept and moved as a whole so that the first frame stands at 0. Without that the container
 * would state a late start in its coarse movie clock and the frames would lie off the original's ticks.
 */
function copyReading(table: FrameTable): string[] {
  const start = ((table.pts[0] ?? 0) * table.timeBase.num) / table.timeBase.den;
  return ['-copyts', '-itsoffset', (-start).toFixed(6)];
}

function copyWriting(
  facts: ClipProbe,
  table: FrameTable,
  way: Way,
  size: { width: number; height: number },
  fields: boolean,
): string[] {
  const { picture, sound } = facts;
  const large = Math.max(picture.width, picture.height) >= largeSide;
  const filters = [
    way.gap === null ? risingOnly : `setpts=N*${way.gap}`,
    ...uprightFilters(picture, large ? size : picture, fields),
    // Bytes of the picture stay where they are: an odd side gets one more column or row at its end.
    `pad=${size.width}:${size.height}`,
    'setsar=1',
  ];
  return [
    ...['-map', `0:${picture.stream}`, ...(way.sound && sound ? ['-map', `0:${sound.stream}`] : [])],
    // Neither place nor maker of the recording goes into the copy.
    ...['-map_metadata', '-1', '-map_chapters', '-1', '-sn', '-dn'],
    ...['-vf', filters.join(',')],
    ...['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-pix_fmt', 'yuv420p'],
    // The encoder counts in ticks of the clip's own clock, or in the halves of them that half-pictures need.
    ...['-vsync', 'passthrough', '-enc_time_base'],
    fields ? `${table.timeBase.num}/${table.timeBase.den}` : '-1',
    ...['-video_track_timescale', String(table.timeBase.den)],
    ...[
      '-g',
      String(copyKeyDistance),
      '-keyint_min',
      String(copyKeyDistance),
      '-sc_threshold',
      '0',
      '-bf',
      '0',
    ],
    ...colourKept(picture.colour),
    ...(way.sound && sound ? ['-c:a', 'aac', ...(sound.channels > 2 ? ['-ac', '2'] : [])] : []),
    ...['-max_muxing_queue_size', '9999', '-movflags', '+faststart', '-f', 'mp4'],
  ];
}

function toFootageError(error: unknown, file: string, folder: string): FootageError {
  const name = shownName(file);
  return encodingTrouble(error, file, {
    noSpace: footageWords.noSpace(name, folder),
    failed: (reason) => footageWords.copyFailed(name, reason),
  });
}
