import { execFile } from 'node:child_process';
import { mkdir, readFile, truncate, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import type { JobReport } from '../../../src/host/contract/calls.ts';
import { HostTrouble, runJob, type Link } from '../../../src/host/contract/link.ts';
import { forkHost, type RemoteHost } from '../../../src/host/remote.ts';
import { emptyFolder, linkTo, mediaOf, settingsFor } from '../host-suite/lines.ts';

const run = promisify(execFile);

let root: { path: string; remove(): Promise<void> };
let host: RemoteHost;
let link: Link;
let files: string;

/** Draws a clip of a second and a bit with ffmpeg. */
async function film(name: string, ...how: string[]): Promise<string> {
  const { ffmpeg } = await findPrograms();
  const path = join(files, name);
  const picture = ['-f', 'lavfi', '-i', 'testsrc=size=128x96:rate=25:duration=1.2'];
  await run(ffmpeg, ['-v', 'error', '-y', ...picture, ...how, path]);
  return path;
}

const h264 = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p'];

beforeAll(async () => {
  root = await emptyFolder();
  files = join(root.path, 'files');
  await mkdir(files);
  host = await forkHost(settingsFor(join(root.path, 'library')));
  link = linkTo(host);
});
afterAll(async () => {
  await host.close();
  await root.remove();
});

const failure = (path: string) =>
  runJob(link, 'clip.import', { source: { path } }).then(
    () => null,
    (error: unknown) => error,
  );

test('the host process on real video: from a clip with an odd name to its frames and its bytes', async () => {
  const path = await film(`The "blue one" – Übung's 犬.mp4`, ...h264);
  const { clip } = await runJob(link, 'clip.import', { source: { path } });
  expect(clip).toMatchObject({
    frames: 30,
    state: 'ready',
    width: 128,
    height: 96,
    codec: 'h264',
    why: null,
  });
  const { pts, timeBase } = await link.call('clip.frames', { clipId: clip.id });
  const seconds = pts.map((p) => (p * timeBase[0]) / timeBase[1]);
  seconds.forEach((s, i) => expect(s).toBeCloseTo(i / 25, 6));
  expect(await mediaOf(host, clip.mediaId ?? '')).toEqual(await readFile(path));
});

test('HEVC gets a working copy by itself, with as many frames, that a browser can show', async () => {
  const path = await film(
    'phone.mov',
    '-c:v',
    'libx265',
    '-x265-params',
    'log-level=error',
    '-pix_fmt',
    'yuv420p',
  );
  const before = await readFile(path);
  const { clip } = await runJob(link, 'clip.import', { source: { path } });
  expect(clip).toMatchObject({ frames: 30, codec: 'hevc', why: 'codec' });
  const job = await ended((j) => j.name === 'clip.workingCopy' && j.about === 'phone.mov');
  expect(job).toMatchObject({ state: 'done', result: { clip: { state: 'workingCopy', rotation: 0 } } });
  const media = await host.media((job.result as { clip: { mediaId: string } }).clip.mediaId);
  const { ffprobe } = await findPrograms();
  const asked = ['-v', 'error', '-select_streams', 'v', '-count_frames', '-show_entries'];
  const entries = 'stream=codec_name,nb_read_frames';
  const { stdout } = await run(ffprobe, [...asked, entries, '-of', 'csv=p=0', media?.path ?? '']);
  expect(stdout.trim()).toBe('h264,30');
  expect(await readFile(path)).toEqual(before);
});

test('the report of a marked run is one page with its stills in it', async () => {
  const path = await film('run.mp4', ...h264, '-vf', 'hflip');
  const { clip } = await runJob(link, 'clip.import', { source: { path } });
  const { reviewId } = await link.call('review.create', {
    title: 'One jump',
    obstacles: 2,
    clipIds: [clip.id],
  });
  const footageId = await new Promise<string>((resolve) => {
    link.subscribe('review', { reviewId }, (e) => {
      if (e.type === 'whole') resolve(e.state.footage[0]?.id ?? '');
    });
  });
  const { pts } = await link.call('clip.frames', { clipId: clip.id });
  const body = {
    id: 'm1',
    kind: 'start' as const,
    part: 'release' as const,
    footageId,
    pts: pts[12] ?? 0,
  };
  await link.call('review.apply', {
    reviewId,
    actId: 'a1',
    label: 'Release',
    changes: [{ kind: 'mark', id: 'm1', body }],
  });
  const report = await runJob(link, 'report.write', { reviewId });
  const html = (await mediaOf(host, report.mediaId))?.toString() ?? '';
  expect(html).toContain('One jump');
  expect(html).toContain('data:image/jpeg;base64,');
  expect(html).toContain('128 × 96');
  expect(html).not.toContain(files);
});

test('what is no video, or no longer one, is refused in words that name the file', async () => {
  const write = async (name: string, content: string) => {
    const path = join(files, name);
    await writeFile(path, content);
    return path;
  };
  const { ffmpeg } = await findPrograms();
  const sound = join(files, 'sound.mp4');
  await run(ffmpeg, ['-v', 'error', '-y', '-f', 'lavfi', '-i', 'sine=duration=1', '-c:a', 'aac', sound]);
  const cut = await film('cut.mp4', ...h264);
  await truncate(cut, 900);
  const cases: [string, string[]][] = [
    [await write('empty.mp4', ''), ['badInput']],
    [await write('text.mp4', 'Dear diary, today we ran.'), ['noVideo', 'badInput', 'unreadable', 'damaged']],
    [sound, ['noVideo']],
    [cut, ['damaged', 'unreadable', 'noVideo', 'badInput']],
    [join(files, 'gone.mp4'), ['notFound']],
  ];
  for (const [path, codes] of cases) {
    const error = await failure(path);
    expect(error).toBeInstanceOf(HostTrouble);
    expect(codes).toContain((error as HostTrouble).code);
    expect((error as HostTrouble).message).toContain(path.slice(files.length + 1));
  }
});

/** A job that has come to its end. */
function ended(wanted: (job: JobReport) => boolean): Promise<JobReport> {
  return new Promise((resolve) => {
    const stop = link.subscribe('jobs', {}, ({ jobs }) => {
      const job = jobs.find(wanted);
      if (!job || job.state === 'waiting' || job.state === 'running') return;
      queueMicrotask(() => stop());
      resolve(job);
    });
  });
}
