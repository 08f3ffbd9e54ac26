import { ptsOf, type FrameTable } from '../time/frameTable.ts';
import type { FrameIndex } from '../time/units.ts';
import { footageWords } from '../words/footage.ts';
import type { ClipProbe } from './clipProbe.ts';
import { splitJpegs } from './jpegStream.ts';
import { deinterlacedFirst, hasTimes, secondsOf, seek } from './picking.ts';
import { probe } from './probe.ts';
import { EncodingFailed, runFfmpeg } from './programs/ffmpeg.ts';
import { Stopped } from './programs/ffprobe.ts';
import { cancelled, FootageError, lastLine, shownName } from './trouble.ts';
import { risingOnly, uprightFilters } from './upright.ts';

export interface StillOptions {
  /** Widest that a still may be, pixels; smaller pictures are not enlarged. */
  readonly maxWidth?: number;
  /** 1 (coarse) to 100 (fine). */
  readonly quality?: number;
  readonly signal?: AbortSignal;
  readonly facts?: ClipProbe;
}

/** Seconds between two frames up to which decoding on is cheaper than seeking anew. */
const nearby = 3;
/** Frames asked for in one run of ffmpeg. */
const atOnce = 40;

/**
 * One frame as the bytes of a JPEG: upright, in square pixels, with nothing in it but the picture (no EXIF, no
 * comment). `table` is the clip's own, from `indexFrames`.
 * Throws a FootageError: badInput (no such frame), damaged (the decoder does not give it out), cancelled, those of `probe`.
 */
export async function still(
  file: string,
  table: FrameTable,
  index: number,
  options: StillOptions = {},
): Promise<Buffer> {
  const [only] = await stills(file, table, [index], options);
  if (!only) throw missing(file, index, footageWords.stillMissing);
  return only;
}

/** Several frames as JPEGs, in the order asked for (see `still`). Frames near each other are read in one pass. */
export async function stills(
  file: string,
  table: FrameTable,
  indices: readonly number[],
  options: StillOptions = {},
): Promise<Buffer[]> {
  const name = shownName(file);
  for (const index of indices) {
    if (!Number.isSafeInteger(index) || index < 0 || index >= table.pts.length) {
      throw new FootageError('badInput', footageWords.noSuchFrame(name, index, table.pts.length));
    }
  }
  const facts = options.facts ?? (await probe(file, options.signal ? { signal: options.signal } : {}));
  const found = new Map<number, Buffer>();
  for (const group of groups(table, indices)) {
    await take(facts, table, group, options, found);
  }
  return indices.map((index) => {
    const bytes = found.get(index);
    if (!bytes) throw missing(file, index, footageWords.stillMissing);
    return bytes;
  });
}

function groups(table: FrameTable, indices: readonly number[]): number[][] {
  const sorted = [...new Set(indices)].sort((a, b) => a - b);
  const list: number[][] = [];
  for (const index of sorted) {
    const group = list.at(-1);
    const before = group?.at(-1);
    const near = before !== undefined && secondsOf(table, index) - secondsOf(table, before) <= nearby;
    if (group && near && group.length < atOnce) group.push(index);
    else list.push([index]);
  }
  return list;
}

/**
 * Frames are picked by their exact time, on the file's own clock, so that a seek that lands a little off can give no
 * wrong picture, only none. Then, and where a container keeps no times, they are counted from the start of the file.
 */
async function take(
  facts: ClipProbe,
  table: FrameTable,
  group: readonly number[],
  options: StillOptions,
  found: Map<number, Buffer>,
): Promise<void> {
  if (hasTimes(facts)) {
    const picked = group.map((index) => `eq(pts,${ptsOf(table, index as FrameIndex)})`).join('+');
    // Where pieces of an edit list meet, two frames may carry one time; the table holds the first of them.
    const reading = seek(facts, table, group[0] ?? 0);
    const pictures = await run(facts, options, group, reading, [risingOnly, `select='${picked}'`]);
    if (pictures.length === group.length) return keep(group, pictures, found);
  }
  const counted = group.map((index) => `eq(n,${index})`).join('+');
  const pictures = await run(facts, options, group, ['-copyts'], [risingOnly, `select='${counted}'`]);
  if (pictures.length === group.length) keep(group, pictures, found);
}

function keep(group: readonly number[], pictures: readonly Buffer[], found: Map<number, Buffer>): void {
  group.forEach((index, i) => {
    const bytes = pictures[i];
    if (bytes) found.set(index, bytes);
  });
}

async function run(
  facts: ClipProbe,
  options: StillOptions,
  group: readonly number[],
  reading: readonly string[],
  picking: readonly string[],
): Promise<Buffer[]> {
  const { picture } = facts;
  const width = Math.max(1, Math.min(picture.width, Math.floor(options.maxWidth ?? picture.width)));
  const height = Math.max(1, Math.round((picture.height * width) / picture.width));
  // ffmpeg's scale for JPEG runs from 2 (fine) to 31 (coarse).
  const quality = Math.max(1, Math.min(100, options.quality ?? 90));
  const q = Math.round(31 - ((quality - 1) / 99) * 29);
  const chunks: Buffer[] = [];
  try {
    await runFfmpeg({
      from: facts.path,
      reading,
      writing: [
        ...['-map', `0:${picture.stream}`, '-map_metadata', '-1', '-an', '-sn', '-dn'],
        ...['-vf', [...deinterlacedFirst(facts, picking), ...toJpeg(facts, width, height)].join(',')],
        ...['-vsync', 'passthrough', '-frames:v', String(group.length)],
        ...['-c:v', 'mjpeg', '-pix_fmt', 'yuvj420p', '-q:v', String(q)],
        ...['-flags:v', '+bitexact', '-fflags', '+bitexact', '-f', 'image2pipe'],
      ],
      to: (bytes) => chunks.push(bytes),
      signal: options.signal,
    });
  } catch (error) {
    if (error instanceof Stopped) throw cancelled(facts.path);
    if (error instanceof EncodingFailed && !error.killed) {
      // Nothing picked is an error to some builds; the caller tries the other way, then says so.
      if (
        chunks.length === 0 &&
        /Output file is empty|Nothing was written|not enough frames/i.test(error.complaint)
      ) {
        return [];
      }
      throw missing(facts.path, group[0] ?? 0, lastLine(error.complaint) || lastLine(error.message));
    }
    const reason = error instanceof Error ? error.message : String(error);
    throw missing(facts.path, group[0] ?? 0, reason);
  }
  return splitJpegs(Buffer.concat(chunks));
}

/** JPEG files (JFIF) are full range BT.601; video is mostly neither. */
function toJpeg(facts: ClipProbe, width: number, height: number): string[] {
  const { picture } = facts;
  const upright = uprightFilters({ ...picture, interlaced: false }, { width, height });
  const named = new Map([
    ['bt709', 'bt709'],
    ['bt2020nc', 'bt2020'],
    ['bt2020c', 'bt2020'],
    ['smpte170m', 'bt601'],
    ['bt470bg', 'bt601'],
    ['smpte240m', 'smpte240m'],
    ['fcc', 'fcc'],
  ]);
  // Where the stream does not say, players take large pictures for BT.709.
  const unstated = picture.coded.height >= 720 ? 'bt709' : 'bt601';
  const from = named.get(picture.colour.matrix ?? '') ?? unstated;
  const scale = upright.pop() ?? '';
  return [...upright, `${scale}:in_color_matrix=${from}:out_color_matrix=bt601:out_range=pc`, 'setsar=1'];
}

function missing(file: string, index: number, reason: string): FootageError {
  return new FootageError('damaged', footageWords.stillFailed(shownName(file), index, reason));
}
