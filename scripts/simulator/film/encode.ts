import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { Camera } from '../camera.ts';
import type { FrameTimes } from '../frameTimes.ts';
import { secondsOf } from '../frameTimes.ts';
import { sceneOf } from '../picture/scene.ts';
import type { RunRecord } from '../run.ts';
import { soundOf, wavOf } from './sound.ts';

/** Draws a run at a steady rate and writes it as H.264 in MP4. The file appears only when it is whole. */
export async function makeFilm(
  run: RunRecord,
  camera: Camera,
  frames: FrameTimes,
  rate: number,
  quality: number,
  target: string,
  told: (share: number) => void,
): Promise<void> {
  const work = mkdtempSync(join(tmpdir(), 'film-'));
  const sound = join(work, 'sound.wav');
  const part = join(dirname(target), `.part-${process.pid}.mp4`);
  try {
    writeFileSync(sound, wavOf(soundOf(run, camera)));
    const scene = sceneOf(run, camera);
    const [num, den] = frames.timeBase;
    const encoder = spawn(
      'ffmpeg',
      [
        ...['-hide_banner', '-loglevel', 'error', '-y'],
        ...[
          '-f',
          'rawvideo',
          '-pix_fmt',
          'rgba',
          '-s',
          `${camera.width}x${camera.height}`,
          '-r',
          String(rate),
          '-i',
          '-',
        ],
        ...['-i', sound],
        ...['-vf', 'scale=out_color_matrix=bt709:out_range=tv'],
        ...['-color_primaries', 'bt709', '-color_trc', 'bt709', '-colorspace', 'bt709'],
        ...[
          '-c:v',
          'libx264',
          '-preset',
          'medium',
          '-crf',
          String(quality),
          '-pix_fmt',
          'yuv420p',
          '-g',
          String(rate * 2),
        ],
        ...['-video_track_timescale', String(den / num)],
        ...[
          '-c:a',
          'aac',
          '-b:a',
          '48k',
          '-movflags',
          '+faststart',
          '-map_metadata',
          '-1',
          '-fflags',
          '+bitexact',
        ],
        part,
      ],
      { stdio: ['pipe', 'inherit', 'inherit'] },
    );
    const ended = once(encoder, 'close');
    const times = secondsOf(frames);
    for (const [i, time] of times.entries()) {
      scene.draw(time);
      if (!encoder.stdin.write(scene.canvas.data())) await once(encoder.stdin, 'drain');
      if (i % 200 === 0) told(i / times.length);
    }
    encoder.stdin.end();
    const [code] = (await ended) as [number];
    if (code !== 0) throw new Error(`ffmpeg could not write ${target} (exit ${code}).`);
    renameSync(part, target);
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
      '-v',
      'error',
      '-select_streams',
      'v:0',
      '-show_frames',
      '-show_entries',
      'stream=time_base:frame=pts',
      '-show_streams',
      '-of',
      'json',
      file,
    ],
    { encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  if (asked.status !== 0) throw new Error(`ffprobe could not read ${file}: ${asked.stderr}`);
  const told = JSON.parse(asked.stdout) as { frames: { pts: number }[]; streams: { time_base: string }[] };
  const [num, den] = (told.streams[0]?.time_base ?? '0/1').split('/').map(Number);
  return { timeBase: [num ?? 0, den ?? 1], pts: told.frames.map((f) => f.pts) };
}
