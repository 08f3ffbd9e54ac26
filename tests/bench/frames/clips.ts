import { execFileSync } from 'node:child_process';
import { existsSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import type { ClipRecipe } from '../../../scripts/clips/kinds.ts';
import { clipBy } from '../../../scripts/clips/make.ts';

const painted = { width: 640, height: 360 } as const;
const grown = (width: number, height: number, grain: number): string =>
  `scale=${width}:${height}:flags=neighbor,noise=alls=${grain}:allf=t`;
const x264 = ['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '23', '-pix_fmt', 'yuv420p'];
const every = (frames: number): string[] => [
  ...['-bf', '3', '-b_strategy', '0', '-g', String(frames), '-keyint_min', String(frames)],
  ...['-sc_threshold', '0'],
];
const fullHd = (more: readonly string[]): string[] => [...x264, ...more, '-vf', grown(1920, 1080, 5)];

/** Large clips with a number in every picture, grain included: an encoder's work as a phone would give it. */
const recipes = {
  /** 1080p60 with B-frames, a key frame every second. */
  hd60: { ...painted, ending: 'mp4', frames: 900, rate: '60', encode: fullHd(every(60)) },
  hdVfr: {
    ...painted,
    ending: 'mp4',
    frames: 600,
    rate: '600',
    ticks: 'N*20+4*mod(N*7,3)+gt(N,120)*310+max(0,N-200)*5',
    encode: fullHd(every(60)),
  },
  hd240: { ...painted, ending: 'mp4', frames: 900, rate: '240', encode: fullHd(every(240)) },
  /** A key frame every 250. */
  longGop: { ...painted, ending: 'mp4', frames: 1500, rate: '60', encode: fullHd(every(250)) },
  fourK: {
    ...painted,
    ending: 'mp4',
    frames: 300,
    rate: '60',
    encode: [...x264, ...every(60), '-vf', grown(3840, 2160, 3)],
  },
  oneMinute: {
    width: 320,
    height: 240,
    ending: 'mp4',
    frames: 1500,
    rate: '25',
    encode: [...x264, '-bf', '0', '-g', '50'],
  },
} as const satisfies Record<string, ClipRecipe>;

export type BenchClip = keyof typeof recipes;

/** The path of a large clip, made once and kept under .cache/clips. */
export async function benchClip(name: BenchClip): Promise<string> {
  return (await clipBy(`bench-${name}`, recipes[name])).path;
}

/** Three hours: one minute over and over, nothing encoded again. The painted number is the index modulo 1500. */
export async function threeHours(): Promise<string> {
  const minute = await benchClip('oneMinute');
  const out = path.join(path.dirname(minute), `threeHours-of-${path.basename(minute)}`);
  if (existsSync(out)) return out;
  const unfinished = `${out}.part.mp4`;
  try {
    const looped = ['-stream_loop', '179', '-i', minute, '-c', 'copy', '-an'];
    execFileSync('ffmpeg', ['-v', 'error', '-y', ...looped, unfinished]);
    renameSync(unfinished, out);
  } finally {
    rmSync(unfinished, { force: true });
  }
  return out;
}
