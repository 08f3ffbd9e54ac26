import { spawnSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { clip } from '../../../scripts/clips/make.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import { copyKeyDistance, makeWorkingCopy } from '../../../src/footage/workingCopy.ts';
import { showFrames } from '../../reference/footage/independent.ts';
import { killCopies } from '../../unit/host-suite/killedCopies.ts';
import type { BenchLine } from '../run.ts';
import { benchClip } from './clips.ts';
import { atLeast } from './measure.ts';

const kills = 5;

/** A working copy against a bare ffmpeg with the same settings; its times; hosts killed while they make one. */
export async function copyLines(): Promise<BenchLine[]> {
  const folder = await mkdtemp(join(tmpdir(), 'walkback-bench-copies-'));
  try {
    return [...(await speedLines(folder)), await killedLine()];
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function speedLines(folder: string): Promise<BenchLine[]> {
  const file = await benchClip('hd60');
  const { table } = await indexFrames(file);
  const { ffmpeg, ffprobe } = await findPrograms();
  const out = join(folder, 'copy.mp4');
  const times = { copy: 0, bare: 0 };
  const timed = async (of: 'copy' | 'bare', work: () => unknown): Promise<void> => {
    const begun = performance.now();
    await work();
    times[of] += performance.now() - begun;
  };
  const copy = (): Promise<void> => timed('copy', () => makeWorkingCopy(file, table, out));
  const bare = (): Promise<void> =>
    timed('bare', () => bareFfmpeg(ffmpeg, file, table.timeBase.den, join(folder, 'bare.mp4')));
  // There and back, so that neither has the quieter half of the time.
  for (const run of [bare, copy, copy, bare]) await run();

  const build = { name: 'in use', ffmpeg, ffprobe };
  const [source, made] = [showFrames(build, file), showFrames(build, out)];
  const unit = BigInt(source.timeBase[1]) * BigInt(made.timeBase[1]);
  const sinceFirst = ({ pts, timeBase: [num, den] }: typeof source): string =>
    pts.map((at) => (BigInt((at ?? 0) - (pts[0] ?? 0)) * BigInt(num) * unit) / BigInt(den)).join();
  const equal = sinceFirst(source) === sinceFirst(made) && !made.pts.includes(null);
  const seconds = (value: number): string => `${(value / 2000).toFixed(1)} s`;
  return [
    atLeast(
      `working copy, check included, to a bare ffmpeg (1080p60, ${table.pts.length} frames)`,
      times.bare / times.copy,
      0.7,
      `${seconds(times.copy)} to ${seconds(times.bare)}`,
    ),
    {
      figure: 'times of the working copy',
      asked: 'equal',
      measured: `${made.pts.length} of ${source.pts.length} frames, ${equal ? 'all at their times' : 'times differ'}`,
      holds: equal,
    },
  ];
}

/** The settings of a working copy, written down here a second time. */
function bareFfmpeg(ffmpeg: string, file: string, scale: number, out: string): void {
  const key = String(copyKeyDistance);
  const args = [
    ...['-v', 'error', '-y', '-i', file, '-map', '0:v:0', '-map', '0:a?'],
    ...['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-pix_fmt', 'yuv420p'],
    ...['-vsync', 'passthrough', '-enc_time_base', '-1', '-video_track_timescale', String(scale)],
    ...['-g', key, '-keyint_min', key, '-sc_threshold', '0', '-bf', '0'],
    ...['-c:a', 'aac', '-movflags', '+faststart', out],
  ];
  // As polite as the copy is, where the system knows politeness.
  const polite = process.platform === 'win32' ? [ffmpeg, ...args] : ['nice', '-n', '10', ffmpeg, ...args];
  const [program = ffmpeg, ...rest] = polite;
  const { status, stderr } = spawnSync(program, rest, { encoding: 'utf8' });
  if (status !== 0) throw new Error(`the bare ffmpeg failed: ${stderr}`);
}

async function killedLine(): Promise<BenchLine> {
  const { path, frames } = await clip('hevc');
  const killed = await killCopies(path, kills, Math.random);
  try {
    const { table } = await indexFrames(killed.copy);
    const whole = table.pts.length === frames;
    const clean = killed.halfUsed === 0 && killed.leftLying === 0 && killed.notGoneOn === 0;
    return {
      figure: `host killed ${kills} times at random moments of a copy`,
      asked: 'no half file ever used',
      measured:
        `${killed.halfUsed} used, ${killed.leftLying} left lying, ${kills - killed.notGoneOn} gone on with; ` +
        `killed at ${killed.at.map((share) => `${Math.round(share * 100)} %`).join(', ')}; ` +
        `then made ${whole ? 'whole' : 'short'}`,
      holds: whole && clean,
    };
  } finally {
    await killed.remove();
  }
}
