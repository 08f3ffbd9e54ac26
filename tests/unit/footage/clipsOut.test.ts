import { execFileSync, spawn } from 'node:child_process';
import { chmod, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { createCanvas } from '@napi-rs/canvas';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { clip, type ClipKind } from '../../../scripts/clips/make.ts';
import { readPaintedNumber } from '../../../scripts/clips/painted.ts';
import { makeClip, type ClipOrder } from '../../../src/footage/clip/makeClip.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { sweepUnfinished } from '../../../src/footage/unfinished.ts';
import { findPrograms, type Programs } from '../../../src/footage/programs/find.ts';
import { ffmpeg, scratch } from './makeFile.ts';

let room: Awaited<ReturnType<typeof scratch>>;
let programs: Programs;
beforeEach(async () => {
  room = await scratch();
  programs = await findPrograms();
  await mkdir(room.at('out'));
});
afterEach(async () => {
  delete process.env['WALKBACK_FFMPEG'];
  await room.clear();
});

const out = (): string => room.at('out/run.mp4');
const left = async (): Promise<string[]> => (await readdir(room.at('out'))).sort();

/** Frame by frame, from one to another, at the clip's own rate. */
async function orderOf(file: string, from: number, to: number, rate: number): Promise<ClipOrder> {
  const facts = await probe(file);
  const { table } = await indexFrames(file, { facts });
  const shots = Array.from({ length: to - from + 1 }, (_, i) => ({ frame: from + i, at: i }));
  const { width, height } = facts.picture;
  const lane = { facts, table, parts: [{ from, to }], shots, size: { width, height } };
  return {
    lanes: [lane],
    rate: { num: rate, den: 1 },
    ticks: shots.length,
    size: lane.size,
    layers: null,
    sound: [],
  };
}

const painted = async (kind: ClipKind, from: number, to: number, rate: number): Promise<ClipOrder> =>
  orderOf((await clip(kind)).path, from, to, rate);

/** A program in place of ffmpeg: `body` is a shell script; $REAL is the real one. */
async function inPlaceOfFfmpeg(body: string): Promise<void> {
  const script = room.at('ffmpeg.sh');
  await writeFile(script, `#!/bin/sh\nREAL='${programs.ffmpeg}'\n${body}\n`);
  await chmod(script, 0o755);
  process.env['WALKBACK_FFMPEG'] = script;
}

/** Every picture of a file as RGBA, of this size. */
function picturesOf(file: string, width: number, height: number): Buffer[] {
  const raw = execFileSync(
    programs.ffmpeg,
    [
      ...['-v', 'error', '-i', file, '-vf', `scale=${width}:${height}`, '-vsync', 'passthrough'],
      ...['-f', 'rawvideo', '-pix_fmt', 'rgba', 'pipe:1'],
    ],
    { maxBuffer: 2 ** 30 },
  );
  const bytes = width * height * 4;
  return Array.from({ length: raw.length / bytes }, (_, i) => raw.subarray(i * bytes, (i + 1) * bytes));
}

describe('a clip to hand over', () => {
  it('says neither place nor device nor path, whatever the footage says', async () => {
    const tagged = room.at('IMG_0007.mov');
    await ffmpeg(
      ...['-i', (await clip('h264')).path, '-c', 'copy', '-movflags', 'use_metadata_tags'],
      ...['-metadata', 'com.apple.quicktime.location.ISO6709=+48.2082+016.3738+171.0/'],
      ...['-metadata', 'location=+48.2082+016.3738/', '-metadata', 'com.apple.quicktime.model=Handheld 9'],
      ...['-metadata', 'com.apple.quicktime.make=Maker', '-metadata', 'title=Ines at home'],
      ...['-metadata', 'creation_time=2026-04-18T10:00:00Z', '-metadata:s:v', 'handler_name=Maker Video'],
      tagged,
    );
    const told = (file: string): string =>
      execFileSync(
        programs.ffprobe,
        ['-v', 'error', '-show_format', '-show_streams', '-show_chapters', '-of', 'json', file],
        { encoding: 'utf8' },
      );
    expect(told(tagged)).toMatch(/48\.2082[\s\S]*Handheld 9|Handheld 9[\s\S]*48\.2082/);
    const order = await orderOf(tagged, 10, 40, 30);
    await makeClip({ ...order, sound: [{ frame: 10, seconds: 31 / 30 }] }, out());
    const said = told(out()).replaceAll(out(), '').replace('chroma_location', '');
    expect(said).not.toMatch(
      /48\.2|location|Handheld|Maker|Ines|apple|2026|IMG_0007|creation_time|walkback-/i,
    );
    const bytes = (await readFile(out())).toString('latin1');
    expect(bytes).not.toMatch(/48\.2082|Handheld|IMG_0007|\/tmp\/|\/home\/|Lavf/);
    // At the head: phones begin to play before all has arrived.
    expect(bytes.indexOf('moov')).toBeLessThan(bytes.indexOf('mdat'));
  });

  it('has its sound where it is kept, at its place, and silence beside it', async () => {
    const order = await painted('h264', 0, 89, 30);
    const sound = [{ silence: 1 }, { frame: 30, seconds: 1 }, { silence: 1 }] as const;
    await makeClip({ ...order, sound }, out());
    const raw = execFileSync(
      programs.ffmpeg,
      ['-v', 'error', '-i', out(), '-ac', '1', '-ar', '8000', '-f', 's16le', 'pipe:1'],
      { maxBuffer: 2 ** 26 },
    );
    const loud = (from: number, to: number): number => {
      let most = 0;
      for (let i = Math.round(from * 8000); i < Math.round(to * 8000); i++)
        most = Math.max(most, Math.abs(raw.readInt16LE(2 * i)));
      return most;
    };
    expect(raw.length / 16_000).toBeCloseTo(3, 0);
    expect(loud(0.1, 0.9)).toBeLessThan(60);
    expect(loud(1.1, 1.9)).toBeGreaterThan(600);
    expect(loud(2.1, 2.8)).toBeLessThan(60);
  });

  it('shows two runs side by side, each exactly its frame, and what is laid over from its picture on', async () => {
    const [a, b] = [await painted('h264', 20, 49, 30), await painted('fps240', 100, 219, 30)];
    const size = { width: 320, height: 180 };
    const [left = a.lanes[0], right = b.lanes[0]] = [a.lanes[0], b.lanes[0]];
    if (!left || !right) throw new Error('no lanes');
    const shots = Array.from({ length: 24 }, (_, i) => ({ frame: 101 + 5 * i, at: i === 0 ? 0 : i + 4 }));
    const canvas = createCanvas(640, 180);
    const pixels = (): Buffer => Buffer.from(canvas.getContext('2d').getImageData(0, 0, 640, 180).data);
    const clear = pixels();
    canvas.getContext('2d').fillRect(280, 150, 80, 30);
    await makeClip(
      {
        ...a,
        lanes: [
          { ...left, size },
          // Far more frames than the first run has: it is read on when that has ended.
          { ...right, size, shots, parts: [{ from: 101, to: 299 }] },
        ],
        size: { width: 640, height: 180 },
        layers: { at: [0, 12], pictures: [clear, pixels()] },
      },
      out(),
    );
    const pictures = picturesOf(out(), 640, 180);
    const half = (rgba: Buffer, from: number): Buffer =>
      Buffer.concat(
        Array.from({ length: 180 }, (_, y) =>
          rgba.subarray((y * 640 + from) * 4, (y * 640 + from + 320) * 4),
        ),
      );
    const numbers = (from: number): (number | null)[] =>
      pictures.map((rgba) => readPaintedNumber(half(rgba, from), 320, 180));
    expect(numbers(0)).toEqual(Array.from({ length: 30 }, (_, i) => 20 + i));
    expect(numbers(320)).toEqual(
      Array.from({ length: 30 }, (_, i) => shots.findLast((s) => s.at <= i)?.frame),
    );
    const dark = pictures.map((rgba) => (rgba[(165 * 640 + 320) * 4] ?? 255) < 20);
    expect(dark).toEqual(Array.from({ length: 30 }, (_, i) => i >= 12));
  });

  // Some 4300 characters of filters: see `longest` there.
  it('goes through a file where its filters are too long for a command line', async () => {
    const order = await painted('h264Silent', 0, 239, 25);
    const [lane] = order.lanes;
    if (!lane) throw new Error('no lane');
    // Uneven on purpose: no run of frames can be told in one piece.
    const shots = lane.shots.filter(({ frame }) => frame % 7 !== 0 && frame % 3 !== 1);
    let at = 0;
    const far = {
      ...lane,
      shots: shots.map(({ frame }, i) => ({ frame, at: (at += i === 0 ? 0 : 1 + ((i * i) % 5)) })),
    };
    const ticks = at + 3;
    await makeClip({ ...order, lanes: [far], ticks }, out());
    const read = picturesOf(out(), 160, 120).map((rgba) => readPaintedNumber(rgba, 160, 120));
    expect(read).toEqual(
      Array.from({ length: ticks }, (_, i) => far.shots.findLast((s) => s.at <= i)?.frame),
    );
  });
});

describe('a clip that is broken off', () => {
  it('by the user: the program is ended and nothing is left', async () => {
    const stop = new AbortController();
    const order = await painted('h264', 0, 299, 30);
    const made = makeClip(order, out(), { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(made).rejects.toMatchObject({ code: 'cancelled' });
    expect(await left()).toEqual([]);
    const running = execFileSync('ps', ['-eo', 'args='], { encoding: 'utf8' });
    expect(
      running.split('\n').filter((line) => line.includes(room.folder) && line.includes('libx264')),
    ).toEqual([]);
  });

  it('by a full disk: a clear message, nothing left, and what stood there stays', async () => {
    const order = await painted('h264', 0, 120, 30);
    await writeFile(out(), 'the clip of before');
    await inPlaceOfFfmpeg(`case "$*" in *libx264*) trap '' XFSZ; ulimit -f 64;; esac\nexec "$REAL" "$@"`);
    await expect(makeClip(order, out())).rejects.toMatchObject({
      code: 'noSpace',
      message: /no room for the clip in .*out\. Make room there/,
    });
    expect(await left()).toEqual(['run.mp4']);
    expect(await readFile(out(), 'utf8')).toBe('the clip of before');
  });

  it('by the death of ffmpeg: an error that says so, and nothing left', async () => {
    const order = await painted('h264', 0, 299, 30);
    await inPlaceOfFfmpeg(
      `case "$*" in *libx264*) "$REAL" "$@" & sleep 0.2; kill -9 $!; kill -9 $$;; esac\nexec "$REAL" "$@"`,
    );
    await expect(makeClip(order, out())).rejects.toMatchObject({
      code: 'internal',
      message: /ended from outside/,
    });
    expect(await left()).toEqual([]);
  });

  it('by our own death: no file of that name, and the leftover is swept at the next start', async () => {
    const { path: file } = await clip('h264');
    const here = path.resolve(import.meta.dirname, '../../../src/footage');
    await writeFile(
      room.at('die.ts'),
      `import { indexFrames } from '${here}/frameIndex.ts';
       import { probe } from '${here}/probe.ts';
       import { makeClip } from '${here}/clip/makeClip.ts';
       const facts = await probe(${JSON.stringify(file)});
       const { table } = await indexFrames(${JSON.stringify(file)}, { facts });
       const size = { width: 640, height: 360 };
       const shots = table.pts.map((_, i) => ({ frame: i, at: 8 * i }));
       const lane = { facts, table, parts: [{ from: 0, to: table.pts.length - 1 }], shots, size };
       const order = { lanes: [lane], rate: { num: 30, den: 1 }, ticks: 8 * shots.length, size, layers: null, sound: [] };
       await makeClip(order, ${JSON.stringify(out())}, {
         onProgress: (done) => { if (done > 0) process.kill(process.pid, 'SIGKILL'); },
       });`,
    );
    const child = spawn(process.execPath, [room.at('die.ts')], { stdio: 'ignore' });
    expect(await new Promise((resolve) => child.once('close', (_, signal) => resolve(signal)))).toBe(
      'SIGKILL',
    );
    const [leftover = '', ...others] = await left();
    expect(leftover).toMatch(/^\.walkback-.*\.unfinished$/);
    expect(others).toEqual([]);
    await writeFile(room.at('out/other.mp4'), 'x');
    await expect
      .poll(async () => {
        await sweepUnfinished(room.at('out'));
        return left();
      })
      .toEqual(['other.mp4']);
  });

  it('because frames are not those of the library: thrown away, and said', async () => {
    const order = await painted('h264Silent', 10, 60, 25);
    const [lane] = order.lanes;
    if (!lane) throw new Error('no lane');
    const pts = lane.table.pts.map((at, i) => (i > 40 ? at + 1 : at)) as unknown as typeof lane.table.pts;
    const other = { ...lane, table: { ...lane.table, pts } };
    await expect(makeClip({ ...order, lanes: [other] }, out())).rejects.toMatchObject({
      code: 'damaged',
      message: /Nothing was left behind; the footage is unchanged/,
    });
    expect(await left()).toEqual([]);
  });
});
