import { randomUUID } from 'node:crypto';
import { access, constants, mkdir, open, readdir, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { footageWords } from '../../words/footage.ts';
import { colourKept } from '../colourKept.ts';
import { hasTimes, seek } from '../picking.ts';
import { ask } from '../probe.ts';
import { encodingTrouble } from '../programs/encodingTrouble.ts';
import { EncodingFailed, runFfmpeg } from '../programs/ffmpeg.ts';
import { findPrograms } from '../programs/find.ts';
import { cancelled, FootageError, shownName, systemCode } from '../trouble.ts';
import { graph, tellingTimes, timesTold, type Lane, type Mix } from './graph.ts';

export interface ClipOrder extends Omit<Mix, 'layers'> {
  /** Pictures of the whole size (PNG) that are laid over, and when each begins; the first from the start. */
  readonly layers: readonly { readonly at: number; readonly png: Uint8Array }[];
}

export interface ClipOptions {
  readonly signal?: AbortSignal;
  /** Told the pictures written and how many there will be. */
  readonly onProgress?: (done: number, of: number) => void;
}

const unfinished = /^\.walkback-clip-[0-9a-f-]{36}\.unfinished$/;
/** Folders that this process is working in at the moment. */
const underWay = new Set<string>();

/** Longer than this a text of filters goes through a file: command lines have an end. Characters. */
const longest = 4000;

/**
 * Writes a clip to hand over: H.264 of a constant rate that phones play, and in each of its pictures exactly the frame
 * asked for. Frames are picked by their times in the clip's table and held against it afterwards. Everything is written
 * in a folder of its own beside `out` and moved there when it is whole: on any error nothing is left, and what stood at
 * `out` before stays. Neither place, time nor maker of the recording goes into the file.
 * @returns bytes written
 * @throws FootageError: cancelled, noSpace, notFound (footage or folder), damaged (a frame cannot be had), internal
 */
export async function makeClip(order: ClipOrder, out: string, options: ClipOptions = {}): Promise<number> {
  const { signal } = options;
  const [first] = order.lanes;
  if (!first) throw new RangeError('A clip of nothing was asked for');
  const name = first.facts.path;
  if (signal?.aborted) throw cancelled(name);
  const folder = path.dirname(path.resolve(out));
  await access(folder, constants.W_OK).catch((error: unknown) => {
    throw new FootageError('notFound', footageWords.folderMissing(folder), error);
  });
  const room = path.join(folder, `.walkback-clip-${randomUUID()}.unfinished`);
  underWay.add(room);
  try {
    await mkdir(room);
    const made = await encode(order, first, room, options);
    if (signal?.aborted) throw cancelled(name);
    await rename(made.file, out);
    return made.bytes;
  } catch (error) {
    throw encodingTrouble(error, name, {
      noSpace: footageWords.clipNoSpace(folder),
      failed: (reason) => footageWords.clipFailed(shownName(name), reason),
    });
  } finally {
    // A leftover that cannot be removed now (the disk went away) is swept at the next start.
    await rm(room, { recursive: true, force: true }).catch(() => undefined);
    underWay.delete(room);
  }
}

/** Removes what clips that were broken off left in a folder; those under way in this process stay. */
export async function sweepClips(folder: string): Promise<void> {
  const names = await readdir(folder).catch((error: unknown) => {
    if (systemCode(error) === 'ENOENT') return [];
    throw error;
  });
  for (const entry of names) {
    const leftover = path.join(path.resolve(folder), entry);
    if (!unfinished.test(entry) || underWay.has(leftover)) continue;
    await rm(leftover, { recursive: true, force: true }).catch(() => undefined);
  }
}

async function encode(
  order: ClipOrder,
  first: Lane,
  room: string,
  { signal, onProgress }: ClipOptions,
): Promise<{ file: string; bytes: number }> {
  const file = path.join(room, 'clip.mp4');
  const layers = path.join(room, 'layers.png');
  if (order.layers.length > 0) await writeFile(layers, Buffer.concat(order.layers.map((l) => l.png)));
  const filters = graph({ ...order, layers: order.layers.map((l) => l.at) });
  let printed = '';
  let complaint = '';
  await runFfmpeg({
    from: first.facts.path,
    reading: readingOf(first),
    more: [
      ...order.lanes.slice(1).map((lane) => ({ from: lane.facts.path, reading: readingOf(lane) })),
      ...(order.layers.length > 0 ? [{ from: layers, reading: ['-f', 'png_pipe'], ours: true }] : []),
    ],
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
  });
  order.lanes.forEach((lane, i) => {
    check(lane, timesTold(printed, i));
  });
  // A program that ran out of room may end as if all were well: what it wrote is looked at before it counts.
  const written = await picturesIn(file, signal);
  if (written !== order.ticks) {
    if (signal?.aborted) throw cancelled(first.facts.path);
    throw new EncodingFailed(footageWords.clipFrames(order.ticks, written), complaint, false);
  }
  const handle = await open(file, 'r+');
  try {
    await handle.sync();
    return { file, bytes: (await handle.stat()).size };
  } finally {
    await handle.close();
  }
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

/** Pictures that a clip says it has; 0 where it is not whole. */
async function picturesIn(file: string, signal: AbortSignal | undefined): Promise<number> {
  let pictures = 0;
  const what = ['-select_streams', 'v:0', '-show_entries', 'stream=nb_frames', '-of', 'csv=p=0'];
  await ask(file, what, (line) => (pictures = Number.parseInt(line, 10) || 0), signal);
  return pictures;
}

/** Holds the frames that came through against the table: every one of the parts, each at its time. */
function check({ facts, table, parts }: Lane, times: readonly number[]): void {
  const start = table.pts[parts[0]?.from ?? 0] ?? 0;
  const asked = parts.flatMap(({ from, to }) => table.pts.slice(from, to + 1).map((at) => at - start));
  if (times.length === asked.length && (!hasTimes(facts) || times.every((at, i) => at === asked[i]))) return;
  const reason = footageWords.clipFrames(asked.length, times.length);
  throw new FootageError('damaged', footageWords.clipFailed(shownName(facts.path), reason));
}
