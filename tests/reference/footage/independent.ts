import { spawnSync } from 'node:child_process';
import { readPaintedNumber } from '../../../scripts/clips/painted.ts';
import type { Build } from './builds.ts';

/** What `ffprobe -show_frames` prints about the frames of the first video stream, read without the code under test. */
export interface ShownFrames {
  readonly timeBase: readonly [number, number];
  /** Presentation times in print order; null where it prints none. */
  readonly pts: readonly (number | null)[];
  readonly best: readonly (number | null)[];
}

// The static ffprobe from npm crashes on transport streams without this (its own fault, in glibc's iconv).
const env = { ...process.env, GCONV_PATH: '/dev/null' };

export function showFrames(build: Build, file: string): ShownFrames {
  const { status, stdout } = spawnSync(
    build.ffprobe,
    ['-v', 'error', '-select_streams', 'v:0', '-show_streams', '-show_frames', '-of', 'json', file],
    { encoding: 'utf8', maxBuffer: 2 ** 30, env },
  );
  if (status !== 0) throw new Error(`ffprobe ended with ${String(status)}`);
  const said = JSON.parse(stdout) as {
    streams: { time_base: string }[];
    frames: { pts?: number; best_effort_timestamp?: number }[];
  };
  const [num = 0, den = 0] = (said.streams[0]?.time_base ?? '').split('/').map(Number);
  return {
    timeBase: [num, den],
    pts: said.frames.map((f) => f.pts ?? null),
    best: said.frames.map((f) => f.best_effort_timestamp ?? null),
  };
}

/**
 * Numbers painted in every frame of a file, upright, as plain ffmpeg decodes it; null where none can be read.
 * @param part of each picture, as ffmpeg's crop has it: width, height, left, top
 */
export function paintedNumbers(build: Build, file: string, part = 'iw:ih'): (number | null)[] {
  const [width, height] = [160, 120];
  const { status, stdout } = spawnSync(
    build.ffmpeg,
    [
      ...['-v', 'quiet', '-i', file, '-map', '0:v:0', '-vsync', 'passthrough'],
      ...['-vf', `crop=${part},scale=${width}:${height}`, '-f', 'rawvideo', '-pix_fmt', 'rgba', 'pipe:1'],
    ],
    { maxBuffer: 2 ** 30, env },
  );
  if (status !== 0) throw new Error(`ffmpeg ended with ${String(status)}`);
  const bytes = width * height * 4;
  return Array.from({ length: stdout.length / bytes }, (_, i) =>
    readPaintedNumber(stdout.subarray(i * bytes, (i + 1) * bytes), width, height),
  );
}

/** Places of the frames that come after every frame before them; a frame without a time counts as in order. */
export function risingPlaces(times: readonly (number | null)[]): number[] {
  let last = -Infinity;
  return times.flatMap((at, i) => {
    if (at !== null && at <= last) return [];
    if (at !== null) last = at;
    return [i];
  });
}
