import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { clip, clipKinds, type ClipKind } from '../../scripts/clips/make.ts';
import { readPaintedNumber } from '../../scripts/clips/painted.ts';
import { clipSources, someFrames } from './frames/clipSources.ts';
import { underLoad } from './frames/load.ts';
import type { PlainSource } from './frames/page.ts';
import { openStand, type Stand } from './frames/stand.ts';

/** Kinds that Debian's Chromium has no decoder for, or whose container the demuxer does not read. */
const onlyByCopy: ReadonlySet<ClipKind> = new Set([
  'hevc',
  'hevcTenBitTurned',
  'mpeg2Interlaced',
  'proRes',
  'aviMotionJpeg',
  'aviMpeg4',
  'movOdd',
  'editListPieces',
]);

let stand: Stand;
const folder = mkdtempSync(path.join(tmpdir(), 'walkback-frames-test-'));

beforeAll(async () => {
  stand = await openStand();
});
afterAll(async () => {
  await stand.close();
  rmSync(folder, { recursive: true, force: true });
  // The content policy of the window holds: nothing was forbidden, nothing rejected unheard.
  expect(stand.complaints.filter((c) => /policy|unhandled|uncaught/i.test(c))).toEqual([]);
});

/** The number that ffmpeg's own decoder leaves in each frame of a 30000/1001 clip, by index. */
function numbersDecoded(file: string): Map<number, number | null> {
  const [width, height] = [640, 360];
  const list = ['-show_entries', 'frame=pts_time', '-of', 'csv=p=0'];
  const probed = execFileSync('ffprobe', ['-v', 'quiet', '-select_streams', 'v', ...list, file], {
    encoding: 'utf8',
  });
  const indexes = probed
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => Math.round((Number.parseFloat(line) * 30000) / 1001));
  const rgba = ['-map', '0:v', '-vsync', 'passthrough', '-s', `${width}x${height}`, '-pix_fmt', 'rgba'];
  const pictures = execFileSync('ffmpeg', ['-v', 'quiet', '-i', file, ...rgba, '-f', 'rawvideo', '-'], {
    maxBuffer: 2 ** 30,
  });
  const size = width * height * 4;
  expect(pictures.length).toBe(indexes.length * size);
  return new Map(
    indexes.map((index, i) => [
      index,
      readPaintedNumber(pictures.subarray(i * size, (i + 1) * size), width, height),
    ]),
  );
}

/** Seeks at random and steps both ways; every number painted must be the one asked for. */
async function walk(source: PlainSource, asks: number, seed: number): Promise<void> {
  const random = someFrames(asks, source.pts.length, seed);
  const result = await stand.page.evaluate(
    async ({ source: s, random: r, asks: n }) => {
      const { page } = window;
      const opened = await page.open(s);
      if (opened !== 'opened') return { opened };
      const last = s.pts.length - 1;
      const seeks = await page.seeks(r);
      const forward = await page.steps(0, n, 1);
      const backward = await page.steps(last, n, -1);
      return { opened, seeks, forward, backward, left: await page.close() };
    },
    { source, random, asks },
  );
  expect(result.opened).toBe('opened');
  for (const part of [result.seeks, result.forward, result.backward]) {
    expect(part).toEqual({ asks, wrong: [], troubles: [] });
  }
  expect(result.left).toBe(0);
}

describe('the picture shown is the frame asked for', () => {
  test.each(clipKinds)('%s: 200 random seeks and 200 steps each way', async (kind) => {
    const { original, copy, frames } = await clipSources(stand, kind);
    expect(original.numbers ?? original.pts).toHaveLength(original.numbers ? original.pts.length : frames);
    if (onlyByCopy.has(kind)) {
      const refused = await stand.page.evaluate((s) => window.page.open(s), original);
      expect(['cannotDecode', 'misaligned']).toContain(refused);
      expect(copy).not.toBeNull();
    } else {
      await walk(original, 200, 7);
    }
    if (copy) await walk(copy, onlyByCopy.has(kind) ? 200 : 50, 11);
  });

  test.each(['h264', 'vfr', 'mkv', 'vp9', 'rotated90', 'mtsInterlaced'] as const)(
    '%s, while every core is busy',
    async (kind) => {
      const { original } = await clipSources(stand, kind);
      await underLoad(() => walk(original, 100, 13));
    },
  );

  test('a step pressed during a seek starts from the frame asked for', async () => {
    const { original } = await clipSources(stand, 'h264');
    const result = await stand.page.evaluate(async (s) => {
      const { page } = window;
      await page.open(s);
      const runs = [];
      for (const pace of [0, 5, 25]) {
        runs.push(await page.hurry(50, 40, 1, pace), await page.hurry(250, 40, -1, pace));
      }
      return { runs, left: await page.close() };
    }, original);
    result.runs.forEach((run, i) => {
      expect(run.wrong).toEqual([]);
      expect(run.troubles).toEqual([]);
      expect(run.at).toBe(i % 2 === 0 ? 90 : 210);
      expect(run.painted).toBeGreaterThan(0);
    });
    expect(result.left).toBe(0);
  });

  test('scrubbing ends on the last frame asked for, in a window of little memory too', async () => {
    const { original } = await clipSources(stand, 'h264');
    const random = someFrames(120, original.pts.length, 17);
    for (const budget of [600_000_000, 4_000_000]) {
      const result = await stand.page.evaluate(
        async ({ s, budget: b, random: r }) => {
          await window.page.open(s, { budget: b });
          const seen = await window.page.scrub(r);
          const steps = await window.page.steps(290, 60, -1);
          return { seen, steps, kept: window.page.openFrames(), left: await window.page.close() };
        },
        { s: original, budget, random },
      );
      expect(result.seen.wrong).toEqual([]);
      expect(result.seen.troubles).toEqual([]);
      expect(result.steps.wrong).toEqual([]);
      expect(result.kept * 640 * 360 * 1.5).toBeLessThanOrEqual(budget);
      expect(result.left).toBe(0);
    }
  });

  test('pictures of single frames are of exactly those frames', async () => {
    for (const kind of ['h264', 'rotated90'] as const) {
      const { original } = await clipSources(stand, kind);
      const wanted = someFrames(30, original.pts.length, 19);
      const pictures = await stand.page.evaluate(
        async ({ s, wanted: w }) => {
          await window.page.open(s);
          const list = await Promise.all(w.map((i) => window.page.picture(i, 160)));
          return { list, left: await window.page.close() };
        },
        { s: original, wanted },
      );
      expect(pictures.list.map((p) => p.read)).toEqual(wanted);
      for (const p of pictures.list) {
        expect(p.width).toBe(160);
        expect(p.height).toBe(Math.round((160 * original.height) / original.width));
      }
      expect(pictures.left).toBe(0);
    }
  });

  test("the browser's own player, where nothing else works, shows the frame asked for or says it cannot", async () => {
    for (const kind of ['h264', 'vfr', 'mkvLate', 'rotated90', 'vp9'] as const) {
      const { original } = await clipSources(stand, kind);
      const random = someFrames(40, original.pts.length, 23);
      const result = await stand.page.evaluate(
        async ({ s, random: r }) => {
          const opened = await window.page.open(s, { by: 'video' });
          const seeks = await window.page.seeks(r);
          const steps = await window.page.steps(30, 20, 1);
          return { opened, seeks, steps, left: await window.page.close() };
        },
        { s: original, random },
      );
      expect(result.opened).toBe('opened');
      expect(result.seeks.wrong).toEqual([]);
      expect(result.steps.wrong).toEqual([]);
      // Some Chromiums (150) stay before a gap of half a second wherever one seeks in the group after it.
      expect(result.seeks.asks).toBeGreaterThan(random.length * 0.8);
      expect(result.left).toBe(0);
    }
  });
});

describe('between playing and stepping', () => {
  test.each(['h264', 'vfr', 'fps240', 'late', 'mkv', 'mkvLate', 'vp9', 'rotated90', 'editList'] as const)(
    '%s: the frame paused on is the frame that was on screen',
    async (kind) => {
      const { original } = await clipSources(stand, kind);
      const n = original.pts.length;
      const runs = await stand.page.evaluate(
        async ({ s, n: frames }) => {
          const { page } = window;
          const opened = await page.openStage(s);
          const list = [];
          const rates = [1, 0.25, 0.0625, 2, 0.5];
          for (const [i, rate] of rates.entries()) {
            list.push(await page.playAndPause((i * 37) % (frames >> 1), rate, 80 + i * 53));
          }
          return { opened, list, closed: await page.closeStage() };
        },
        { s: original, n },
      );
      expect(runs.opened).toBe('opened');
      for (const run of runs.list) {
        expect(run.played).toBe('playing');
        expect(run.canvas).toBe(run.frame);
        expect(run.player).toBe(run.frame);
        expect(run.canvasSeen).toBe('visible');
        expect(run.rising).toBe(true);
        expect(run.told).toBeGreaterThan(0);
      }
      expect(runs.closed).toEqual({ open: 0, left: 0 });
    },
  );

  test('a loop stays within its frames and starts over', async () => {
    const { original } = await clipSources(stand, 'h264');
    const told = await stand.page.evaluate(async (s) => {
      await window.page.openStage(s);
      const list = await window.page.playLoop(60, 72, 1, 2500);
      await window.page.closeStage();
      return list;
    }, original);
    expect(Math.min(...told)).toBeGreaterThanOrEqual(60);
    // A frame or two past the end may have been on their way when the end was seen.
    expect(Math.max(...told)).toBeLessThanOrEqual(75);
    expect(told.filter((t, i) => i > 0 && t < (told[i - 1] ?? 0)).length).toBeGreaterThanOrEqual(2);
  });

  test('playing to the end stands still on the last frame; play then starts over', async () => {
    const { original } = await clipSources(stand, 'h264Silent');
    const last = original.pts.length - 1;
    const result = await stand.page.evaluate(
      async ({ s, from }) => {
        const { page } = window;
        await page.openStage(s);
        const stage = page.stage();
        await page.playAndPause(from, 2, 3000);
        const end = { mode: stage.mode, frame: stage.frame() };
        await stage.play();
        await page.until(300);
        const again = stage.frame();
        await stage.pause();
        await page.closeStage();
        return { end, again };
      },
      { s: original, from: last - 20 },
    );
    expect(result.end).toEqual({ mode: 'still', frame: last });
    expect(result.again).toBeLessThan(60);
  });

  test('pressing play and pause in any haste ends as the last press says', async () => {
    const { original } = await clipSources(stand, 'h264');
    const modes = await stand.page.evaluate(async (s) => {
      const { page } = window;
      await page.openStage(s);
      const stage = page.stage();
      const list = [];
      for (let presses = 1; presses <= 6; presses++) {
        const all = Array.from({ length: presses }, () => stage.toggle());
        await Promise.all(all);
        await page.until(50);
        await stage.pause();
        list.push(
          stage.mode,
          page.read(stage.canvas, stage.canvas.width, stage.canvas.height) === stage.frame(),
        );
      }
      await page.closeStage();
      return list;
    }, original);
    expect(modes.filter((m) => m !== 'still' && m !== true)).toEqual([]);
  });
});

describe('clips that are not what they seem', () => {
  const openOnly = (source: PlainSource): Promise<string> =>
    stand.page.evaluate(async (s) => {
      const opened = await window.page.open(s);
      if (opened === 'opened') await window.page.close();
      return opened;
    }, source);

  test('a file that is not there, and one that is no video', async () => {
    const { original } = await clipSources(stand, 'h264');
    expect(await openOnly({ ...original, url: '/media/none' })).toBe('unreachable');
    const text = path.join(folder, 'words.mp4');
    writeFileSync(text, 'These are words, not pictures.\n'.repeat(200));
    expect(await openOnly({ ...original, url: stand.serve(text) })).toBe('cannotDecode');
    const empty = path.join(folder, 'empty.mp4');
    writeFileSync(empty, '');
    expect(await openOnly({ ...original, url: stand.serve(empty) })).not.toBe('opened');
  });

  test('a table that belongs to another clip', async () => {
    const a = await clipSources(stand, 'vfr');
    const b = await clipSources(stand, 'h264');
    expect(await openOnly({ ...a.original, timeBase: b.original.timeBase, pts: b.original.pts })).toBe(
      'misaligned',
    );
    const shuffled = a.original.pts.map((t, i) => (i === 100 ? t + 3 : t));
    const cut = await stand.page.evaluate(
      async (s) => {
        const opened = await window.page.open(s);
        if (opened !== 'opened') return opened;
        const seen = await window.page.seeks([100]);
        await window.page.close();
        return seen.troubles[0] ?? `showed ${seen.asks}, wrong ${seen.wrong.length}`;
      },
      { ...a.original, pts: shuffled },
    );
    // A time that no packet has is refused, at once or when it is asked for; a neighbour is never shown for it.
    expect(cut).toMatch(/misaligned|damaged|agree/i);
  });

  test('damage in the middle: each frame is the right one, unreadable, or refused', async () => {
    const made = await clip('h264');
    const bytes = readFileSync(made.path);
    for (let at = bytes.length * 0.4; at < bytes.length * 0.6; at += 997) bytes[Math.floor(at)] = 0xa5;
    const file = path.join(folder, 'hurt.mp4');
    writeFileSync(file, bytes);
    const { original } = await clipSources(stand, 'h264');
    const result = await stand.page.evaluate(
      async ({ s, random }) => {
        const opened = await window.page.open(s);
        const seeks = await window.page.seeks(random);
        return { opened, seeks, left: await window.page.close() };
      },
      { s: { ...original, url: stand.serve(file) }, random: someFrames(150, original.pts.length, 29) },
    );
    expect(result.opened).toBe('opened');
    // Numbers in pictures that are damaged for ffmpeg's decoder too may read as anything.
    const decoded = numbersDecoded(file);
    const sound = new Set([...decoded].filter(([index, read]) => index === read).map(([index]) => index));
    expect(sound.size).toBeGreaterThan(100);
    const wrong = result.seeks.wrong.filter((w) => w.read !== null && sound.has(w.asked));
    expect(wrong).toEqual([]);
    expect(result.seeks.asks).toBeGreaterThan(60);
    expect(result.left).toBe(0);
  });

  test('a file that goes away while it is looked at is named, and the picture stays', async () => {
    const made = await clip('vfr');
    const file = path.join(folder, 'gone.mp4');
    writeFileSync(file, readFileSync(made.path));
    const { original } = await clipSources(stand, 'vfr');
    const source = { ...original, url: stand.serve(file) };
    await stand.page.evaluate((s) => window.page.open(s, { budget: 1_000_000 }), source);
    const before = await stand.page.evaluate(() => window.page.seeks([10]));
    expect(before.wrong).toEqual([]);
    stand.withdraw(file);
    const after = await stand.page.evaluate(() => window.page.seeks([270, 150, 40]));
    const left = await stand.page.evaluate(() => window.page.close());
    // What the demuxer has read already may still be shown, and then it is right.
    expect(after.wrong).toEqual([]);
    for (const t of after.troubles) expect(t).toMatch(/cannot be read at the moment/);
    expect(left).toBe(0);
  });
});
