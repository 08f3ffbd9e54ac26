import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { clip } from '../../../scripts/clips/make.ts';
import { readPaintedNumber } from '../../../scripts/clips/painted.ts';
import { clipSources, someFrames } from './clipSources.ts';
import type { PlainSource } from './page.ts';
import { testStand } from './testStand.ts';

const stand = testStand();
const folder = mkdtempSync(path.join(tmpdir(), 'walkback-frames-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

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

describe('clips that are not what they seem', () => {
  const openOnly = (source: PlainSource): Promise<string> =>
    stand().page.evaluate(async (s) => {
      const opened = await window.page.open(s);
      if (opened === 'opened') await window.page.close();
      return opened;
    }, source);

  test('a file that is not there, and one that is no video', async () => {
    const { original } = await clipSources(stand(), 'h264');
    expect(await openOnly({ ...original, url: '/media/none' })).toBe('unreachable');
    const text = path.join(folder, 'words.mp4');
    writeFileSync(text, 'These are words, not pictures.\n'.repeat(200));
    expect(await openOnly({ ...original, url: stand().serve(text) })).toBe('cannotDecode');
    const empty = path.join(folder, 'empty.mp4');
    writeFileSync(empty, '');
    expect(await openOnly({ ...original, url: stand().serve(empty) })).not.toBe('opened');
  });

  test('a table that belongs to another clip', async () => {
    const a = await clipSources(stand(), 'vfr');
    const b = await clipSources(stand(), 'h264');
    expect(await openOnly({ ...a.original, timeBase: b.original.timeBase, pts: b.original.pts })).toBe(
      'misaligned',
    );
    const shuffled = a.original.pts.map((t, i) => (i === 100 ? t + 3 : t));
    const cut = await stand().page.evaluate(
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
    const { original } = await clipSources(stand(), 'h264');
    const result = await stand().page.evaluate(
      async ({ s, random }) => {
        const opened = await window.page.open(s);
        const seeks = await window.page.seeks(random);
        return { opened, seeks, left: await window.page.close() };
      },
      { s: { ...original, url: stand().serve(file) }, random: someFrames(150, original.pts.length, 29) },
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
    const { original } = await clipSources(stand(), 'vfr');
    const source = { ...original, url: stand().serve(file) };
    await stand().page.evaluate((s) => window.page.open(s, { budget: 1_000_000 }), source);
    const before = await stand().page.evaluate(() => window.page.seeks([10]));
    expect(before.wrong).toEqual([]);
    stand().withdraw(file);
    const after = await stand().page.evaluate(() => window.page.seeks([270, 150, 40]));
    const left = await stand().page.evaluate(() => window.page.close());
    // What the demuxer has read already may still be shown, and then it is right.
    expect(after.wrong).toEqual([]);
    for (const t of after.troubles) expect(t).toMatch(/cannot be read at the moment/);
    expect(left).toBe(0);
  });
});
