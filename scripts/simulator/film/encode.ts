import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, extname, join } from 'node:path';
import type { FrameTimes } from '../frameTimes.ts';
import type { RunOrder } from '../run/run.ts';
import { simulateRun } from '../run/run.ts';
import { drawnPictures } from './draw.ts';
import type { Exposures, FilmOrder } from './order.ts';
import { matroskaFrameHead, matroskaHeader } from './rawMatroska.ts';
import { soundOf, wavOf } from './sound.ts';

function codecOptions(film: FilmOrder): string[] {
  const key = String(film.keyEvery);
  const q = String(film.quality);
  switch (film.codec) {
    case 'h264':
      return [
        '-c:v',
        'libx264',
        '-preset',
        // Grain and a moving camera cost an encoder dearly, and no film from a hand is shipped.
        film.hold.follows ? 'veryfast' : 'medium',
        '-crf',
        q,
        '-g',
        key,
        ...(film.backwardFrames ? [] : ['-bf', '0']),
      ];
    case 'hevc':
      return [
        '-c:v',
        'libx265',
        '-preset',
        'fast',
        '-crf',
        q,
        '-tag:v',
        'hvc1',
        '-x265-params',
        `keyint=${key}:log-level=error${film.backwardFrames ? '' : ':bframes=0'}`,
      ];
    case 'vp9':
      return [
        '-c:v',
        'libvpx-vp9',
        '-crf',
        q,
        '-b:v',
        '0',
        '-deadline',
        'realtime',
        '-cpu-used',
        '6',
        '-g',
        key,
      ];
    case 'av1':
      return ['-c:v', 'libsvtav1', '-preset', '10', '-crf', q, '-g', key];
  }
}

function soundOptions(target: string): string[] {
  // Opus begins before its first sound (its pre-skip), and Matroska would move every picture to make room for that:
  // the first twentieth of a second is left silent, and what follows stays where it was.
  return extname(target) === '.webm'
    ? ['-af', 'atrim=start=0.05', '-c:a', 'libopus', '-b:a', '48k']
    : ['-c:a', 'aac', '-b:a', '48k'];
}

/** Draws a run and writes it as a film. The file appears only when it is whole. Returns pictures drawn per second. */
export async function makeFilm(
  order: RunOrder,
  film: FilmOrder,
  exposures: Exposures,
  target: string,
  hands: number,
  told: (share: number) => void,
): Promise<number> {
  const work = mkdtempSync(join(tmpdir(), 'film-'));
  const sound = join(work, 'sound.wav');
  const part = join(dirname(target), `.part-${process.pid}${extname(target)}`);
  const { width, height } = film.camera;
  const [num, den] = exposures.frames.timeBase;
  const began = performance.now();
  try {
    if (film.sound) writeFileSync(sound, wavOf(soundOf(simulateRun(order), film, exposures)));
    const inMp4 = ['.mp4', '.mov', '.m4v'].includes(extname(target));
    const encoder = spawn(
      'ffmpeg',
      [
        ...['-hide_banner', '-loglevel', 'error', '-y', '-f', 'matroska', '-i', '-'],
        ...(film.sound ? ['-i', sound] : []),
        ...['-map', '0:v:0', ...(film.sound ? ['-map', '1:a:0', ...soundOptions(target)] : [])],
        ...['-vf', 'scale=out_color_matrix=bt709:out_range=tv', '-pix_fmt', 'yuv420p'],
        ...['-color_primaries', 'bt709', '-color_trc', 'bt709', '-colorspace', 'bt709'],
        ...['-vsync', 'passthrough', '-enc_time_base', '-1', ...codecOptions(film)],
        ...(inMp4 ? ['-video_track_timescale', String(den / num), '-movflags', '+faststart'] : []),
        ...['-map_metadata', '-1', '-fflags', '+bitexact', part],
      ],
      { stdio: ['pipe', 'inherit', 'inherit'] },
    );
    const ended = once(encoder, 'close');
    // An encoder that dies closes the pipe; its exit code then says so.
    encoder.stdin.on('error', () => undefined);
    encoder.stdin.write(matroskaHeader(width, height));
    let i = 0;
    for await (const picture of drawnPictures(order, film, exposures.captured, hands)) {
      const pts = exposures.frames.pts[i] ?? 0;
      encoder.stdin.write(matroskaFrameHead(Math.round((pts * num * 1e6) / den), picture.length));
      if (!encoder.stdin.write(picture) && encoder.exitCode === null) {
        await Promise.race([once(encoder.stdin, 'drain'), ended]);
      }
      if (++i % 100 === 0) told(i / exposures.captured.length);
    }
    encoder.stdin.end();
    const [code] = (await ended) as [number];
    if (code !== 0) throw new Error(`ffmpeg could not write ${target} (exit ${code}).`);
    renameSync(part, target);
    return exposures.captured.length / ((performance.now() - began) / 1000);
  } finally {
    rmSync(work, { recursive: true, force: true });
    rmSync(part, { force: true });
  }
}

/** Presentation times of the frames a decoder gives for a file, with their time base. */
export function decodedFrames(file: string): FrameTimes {
  const asked = spawnSync(
    'ffprobe',
    [
      ...['-v', 'error', '-select_streams', 'v:0', '-show_frames', '-show_streams'],
      ...['-show_entries', 'stream=time_base:frame=pts', '-of', 'json', file],
    ],
    { encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  if (asked.status !== 0) throw new Error(`ffprobe could not read ${file}: ${asked.stderr}`);
  const told = JSON.parse(asked.stdout) as { frames: { pts: number }[]; streams: { time_base: string }[] };
  const [num, den] = (told.streams[0]?.time_base ?? '0/1').split('/').map(Number);
  return { timeBase: [num ?? 0, den ?? 1], pts: told.frames.map((f) => f.pts) };
}
