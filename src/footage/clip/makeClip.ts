import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Readable } from 'node:stream';
import { footageWords } from '../../words/footage.ts';
import { colourKept } from '../colourKept.ts';
import { picturesIn } from '../container/movieBox.ts';
import { hasTimes, seek } from '../picking.ts';
import { encodingTrouble } from '../programs/encodingTrouble.ts';
import { EncodingFailed, runFfmpeg } from '../programs/ffmpeg.ts';
import { findPrograms } from '../programs/find.ts';
import { cancelled, FootageError, shownName } from '../trouble.ts';
import { makeBeside } from '../unfinished.ts';
import { graph, tellingTimes, timesTold, type Lane, type Mix } from './graph.ts';

/** Pictures that are laid over a clip. */
export interface Layers {
  /** The picture of the clip with which each begins; the first from the start. At least one. */
  readonly at: readonly number[];
  /** Their pixels, of the whole size: RGBA, straight alpha. Asked for one by one while the clip is made. */
  readonly pictures: Iterable<Uint8Array>;
}

export interface ClipOrder extends Omit<Mix, 'layers'> {
  readonly layers: Layers | null;
}

export interface ClipOptions {
  readonly signal?: AbortSignal;
  /** Told the pictures written and how many there will be. */
  readonly onProgress?: (done: number, of: number) => void;
}

/** Longer than this a text of filters goes through a file: command lines have an end. Characters. */
const longest = 4000;

/**
 * Writes a clip to hand over: H.264 of a constant rate that phones play, and in each of its pictures exactly the frame
 * asked for. Frames are picked by their times in the clip's table and held against it afterwards. What is laid over is
 * painted while ffmpeg is at work. Written beside `out` and moved there when it is whole: on any error nothing is left,
 * and what stood at `out` before stays. Neither place, time nor maker of the recording goes into the file.
 * @returns bytes written
 * @throws FootageError: cancelled, noSpace, notFound (footage or folder), damaged (a frame cannot be had), internal
 */
export async function makeClip(order: ClipOrder, out: string, options: ClipOptions = {}): Promise<number> {
  const [first] = order.lanes;
  if (!first) throw new RangeError('A clip of nothing was asked for');
  const name = first.facts.path;
  try {
    const { bytes } = await makeBeside(out, name, options.signal, async (room) => {
      await mkdir(room);
      return { file: await encode(order, first, room, options), told: null };
    });
    return bytes;
  } catch (error) {
    throw encodingTrouble(error, name, {
      noSpace: footageWords.clipNoSpace(path.dirname(path.resolve(out))),
      failed: (reason) => footageWords.clipFailed(shownName(name), reason),
    });
  }
}

/** Pictures that are painted before ffmpeg asks for them. */
const ahead = 2;

async function encode(
  order: ClipOrder,
  first: Lane,
  room: string,
  { signal, onProgress }: ClipOptions,
): Promise<string> {
  const { layers, size, rate } = order;
  const file = path.join(room, 'clip.mp4');
  const filters = graph({ ...order, layers: layers?.at ?? [] });
  const pictures = layers && Readable.from(layers.pictures, { highWaterMark: ahead });
  const raw = [
    ...['-f', 'rawvideo', '-pixel_format', 'rgba', '-video_size', `${size.width}x${size.height}`],
    ...['-framerate', `${rate.num}/${rate.den}`, '-thread_queue_size', String(ahead)],
  ];
  let printed = '';
  let complaint = '';
  await runFfmpeg({
    from: first.facts.path,
    reading: readingOf(first),
    more: order.lanes.slice(1).map((lane) => ({ from: lane.facts.path, reading: readingOf(lane) })),
    handed: pictures ? { from: pictures, reading: raw } : undefined,
    writing: [
      ...(await filterOptions(filters, room)),
      ...tellingTimes(order.lanes),
      ...writing(order, first, filters.includes('[a]')),
    ],
    to: file,
    signal,
    background: true,
    onFrames: (done) => onProgress?.(Math.min(done, order.ticks), order.ticks),
    onPrinted: (text, complained) => {
      printed = text;
      complaint = complained;
    },
  }).finally(() => pictures?.destroy());
  order.lanes.forEach((lane, i) => {
    check(lane, timesTold(printed, i));
  });
  // A program that ran out of room may end as if all were well: what it wrote is looked at before it counts.
  const written = await picturesIn(file);
  if (written !== order.ticks) {
    if (signal?.aborted) throw cancelled(first.facts.path);
    throw new EncodingFailed(footageWords.clipFrames(order.ticks, written), complaint, false);
  }
  return file;
}

function readingOf({ facts, table, parts }: Lane): string[] {
  return hasTimes(facts) ? seek(facts, table, parts[0]?.from ?? 0) : ['-copyts'];
}

async function filterOptions(filters: string, room: string): Promise<string[]> {
  if (filters.length <= longest) return ['-filter_complex', filters];
  const file = path.join(room, 'filters.txt');
  await writeFile(file, filters);
  const { avutil } = await findPrograms();
  return [avutil >= 59 ? '-/filter_complex' : '-filter_complex_script', file];
}

/** Seconds from key frame to key frame: a phone's slider lands soon enough, and stills cost little. */
const keySeconds = 2;

function writing({ rate, ticks }: ClipOrder, { facts }: Lane, sound: boolean): string[] {
  return [
    ...['-map', '[v]', ...(sound ? ['-map', '[a]'] : [])],
    ...['-map_metadata', '-1', '-map_chapters', '-1', '-sn', '-dn'],
    ...['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '21', '-pix_fmt', 'yuv420p', '-profile:v', 'high'],
    ...['-r', `${rate.num}/${rate.den}`, '-g', String(Math.round((keySeconds * rate.num) / rate.den))],
    ...['-frames:v', String(ticks)],
    ...colourKept(facts.picture.colour),
    ...(sound ? ['-c:a', 'aac', '-b:a', '128k', '-flags:a', '+bitexact'] : []),
    ...['-flags:v', '+bitexact', '-fflags', '+bitexact'],
    ...['-max_muxing_queue_size', '9999', '-movflags', '+faststart', '-f', 'mp4'],
  ];
}

/** Holds the frames that came through against the table: every one of the parts, each at its time. */
function check({ facts, table, parts }: Lane, times: readonly number[]): void {
  const start = table.pts[parts[0]?.from ?? 0] ?? 0;
  const asked = parts.flatMap(({ from, to }) => table.pts.slice(from, to + 1).map((at) => at - start));
  if (times.length === asked.length && (!hasTimes(facts) || times.every((at, i) => at === asked[i]))) return;
  const reason = footageWords.clipFrames(asked.length, times.length);
  throw new FootageError('damaged', footageWords.clipFailed(shownName(facts.path), reason));
}
