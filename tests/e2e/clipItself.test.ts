import { execFile } from 'node:child_process';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildWindow, openWindow, startShell, takeInHand, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';
import { violations } from './violations.ts';

const film = resolve(import.meta.dirname, '../../fixtures/demo/run-b.mp4');
const run = promisify(execFile);

let browser: Browser;
let shells: RunningShell[] = [];
let folder: string;

beforeAll(async () => {
  await buildWindow();
  folder = await mkdtemp(join(tmpdir(), 'walkback-clip-'));
  const picture = ['-vf', 'scale=640:-2,setpts=4*PTS', '-r', '30', '-c:v', 'libx264', '-preset', 'ultrafast'];
  const stated = ['-movflags', 'use_metadata_tags', '-metadata', 'com.android.capture.fps=120'];
  await run('ffmpeg', [
    '-v',
    'error',
    '-t',
    '4',
    '-i',
    film,
    ...picture,
    '-an',
    ...stated,
    join(folder, 'slow.mp4'),
  ]);
  const small = ['-vf', 'scale=640:-2', '-c:v', 'libx264', '-preset', 'ultrafast', '-g', '30', '-c:a', 'aac'];
  await run('ffmpeg', ['-v', 'error', '-t', '12', '-i', film, ...small, join(folder, 'class evening.mp4')]);
  browser = await startChromium();
});

afterAll(async () => {
  await browser.close();
  for (const shell of shells) await shell.stop();
  await rm(folder, { recursive: true, force: true });
});

/** A window on a library of its own. */
async function openLibrary(name: string): ReturnType<typeof openWindow> {
  const shell = await startShell('--library', join(folder, name));
  shells = [...shells, shell];
  return openWindow(browser, shell);
}

async function bringIn(page: Page, name: string, obstacles: string): Promise<void> {
  await page.getByRole('link', { name: 'Library' }).click();
  await page.getByRole('button', { name: 'Bring in a video' }).first().waitFor();
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('b');
  await (await chooser).setFiles(join(folder, name));
  await page.getByLabel(/obstacles/i).fill(obstacles);
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => location.hash.startsWith('#/review/'));
}

/** Nothing of the page may lie outside of the window. */
async function fits(page: Page): Promise<boolean> {
  return page.evaluate(
    () =>
      document.documentElement.scrollWidth <= window.innerWidth &&
      document.documentElement.scrollHeight <= window.innerHeight,
  );
}

const shot = async (page: Page, name: string): Promise<void> => {
  const into = process.env['WALKBACK_SHOTS'];
  if (into !== undefined) await page.screenshot({ path: join(into, `${name}.png`) });
};

describe('a clip in slow motion', () => {
  it('asks at what speed it was filmed, and then tells splits of life', async () => {
    const { page, errors } = await openLibrary('slow');
    page.setDefaultTimeout(60_000);
    await bringIn(page, 'slow.mp4', '3');
    const hands = await takeInHand(page);
    for (const [enter, leave] of [
      [60, 90],
      [210, 240],
    ] as const) {
      await hands.stepTo(enter);
      await hands.press('d');
      await hands.stepTo(leave);
      await hands.press('f');
    }
    await hands.kept();
    const split = async (): Promise<number> =>
      parseFloat((await hands.read('Splits')).match(/1 – 2[^\d]*?(\d+\.\d+) ±/)?.[1] ?? 'NaN');
    const asFile = await split();
    expect(asFile).toBeCloseTo(5, 1);

    await page.getByRole('button', { name: 'Filmed at another speed?' }).waitFor();
    await hands.press('k');
    const panel = page.getByRole('complementary', { name: 'How fast was this filmed?' });
    await panel.getByText(/filmed at 120 frames a second/).waitFor();
    await shot(page, 'speed-1280');
    expect(await fits(page)).toBe(true);
    expect(await violations(page)).toEqual([]);
    await panel.getByRole('button', { name: 'Use this: 4 times slower' }).click();
    await panel.getByText('Said: 4 times slower, throughout.').waitFor();
    await hands.press('Escape');
    expect(await split()).toBeCloseTo(asFile / 4, 2);
    await page.getByRole('button', { name: 'Plays 4 times slower' }).waitFor();

    // By keyboard alone: real time from one frame on, slowed again from another; then all of it undone.
    await hands.press('k');
    await hands.stepTo(60);
    await hands.press('e');
    await hands.stepTo(120);
    await hands.press('s');
    await hands.kept();
    await panel.getByText('from frame 60: real time').waitFor();
    await shot(page, 'speed-stretches');
    await page.setViewportSize({ width: 1920, height: 1080 });
    await shot(page, 'speed-1920');
    expect(await fits(page)).toBe(true);
    await page.setViewportSize({ width: 1280, height: 800 });
    await hands.press('Escape');
    expect(await split()).toBeGreaterThan(asFile / 4 + 0.5);
    await hands.press('i');
    await page.getByText(/Plays as fast as it was/).waitFor();
    await shot(page, 'speed-as-filmed');
    for (let i = 0; i < 3; i++) {
      await hands.press('z');
      await hands.kept();
    }
    expect(await split()).toBeCloseTo(asFile, 2);

    await page.reload();
    const again = await takeInHand(page);
    await page.getByRole('button', { name: 'Filmed at another speed?' }).waitFor();
    await again.press('k', 'w');
    await page.getByText('Said: 4 times slower, throughout.').waitFor();

    // Played as fast as it was, the film runs at four times its own pace.
    await again.press('Escape', 'i', 'Home', 'Space');
    const pace = await page.evaluate(async () => {
      const video = document.querySelector('video');
      if (!video) return null;
      const playing = (): boolean => !video.paused && video.currentTime > 0.4;
      while (!playing()) await new Promise((resolve) => setTimeout(resolve, 20));
      const [time, at] = [video.currentTime, performance.now()];
      await new Promise((resolve) => setTimeout(resolve, 800));
      return {
        rate: video.playbackRate,
        real: ((video.currentTime - time) * 1000) / (performance.now() - at),
      };
    });
    expect(pace?.rate).toBe(4);
    expect(pace?.real).toBeGreaterThan(2);
    expect(errors).toEqual([]);
  });
});

describe('a clip of a class', () => {
  it('is cut into three reviews, each of which keeps to its part; the clip stays one', async () => {
    const { page, errors } = await openLibrary('class');
    page.setDefaultTimeout(60_000);
    await bringIn(page, 'class evening.mp4', '5');
    const hands = await takeInHand(page);
    const cuts = [
      [30, 150],
      [200, 330],
      [400, 560],
    ] as const;
    await hands.press('l');
    const dogs = ['Kees', 'Mot', 'Fenna'];
    for (const [i, [from, to]] of cuts.entries()) {
      await hands.stepTo(from);
      await hands.press('b');
      await hands.stepTo(to);
      await hands.press('e', 'n');
      await page.keyboard.type(dogs[i] ?? '');
      await page.keyboard.press('Enter');
    }
    await hands.kept();
    await shot(page, 'cut-1280');
    expect(await fits(page)).toBe(true);
    expect(await violations(page)).toEqual([]);
    await page.reload();
    await takeInHand(page);
    await page.keyboard.press('l');
    await page.keyboard.press('m');
    await page.getByRole('link', { name: 'Open the review of run 3' }).waitFor();
    await shot(page, 'cut-made');

    for (const [i, [from, to]] of cuts.entries()) {
      if (i > 0) {
        await page.goBack();
        await takeInHand(page);
        await page.keyboard.press('l');
      }
      await page.getByRole('link', { name: `Open the review of run ${i + 1}` }).click();
      await page.getByRole('heading', { name: new RegExp(`^${dogs[i] ?? ''}, class evening`) }).waitFor();
      const own = await takeInHand(page);
      await page.waitForFunction(
        (n) => Number(document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow')) === n,
        from,
      );
      await own.press('ArrowLeft', ',');
      expect(await own.frame()).toBe(from);
      await own.press('End');
      expect(await own.frame()).toBe(to);
      await own.press('.', 'ArrowRight');
      expect(await own.frame()).toBe(to);
    }
    await shot(page, 'cut-own');

    // Playing ends with the cut.
    const last = await takeInHand(page);
    await last.stepTo(540);
    await last.press('Space');
    await page.waitForFunction(
      () => Number(document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow')) === 560,
    );
    await page.getByRole('button', { name: 'Play', exact: false }).first().waitFor();
    await page.waitForTimeout(400);
    expect(await last.frame()).toBe(560);

    // Beyond it and back, and an end put further out; all there after a reload.
    await last.press('l', 'v');
    await last.stepTo(600);
    await last.press('e');
    await last.kept();
    await shot(page, 'cut-beyond');
    await page.reload();
    const reopened = await takeInHand(page);
    await reopened.press('End');
    expect(await reopened.frame()).toBe(600);

    // One of the three goes; the clip stays one file, and stays in the others.
    await page.getByRole('link', { name: 'Library' }).click();
    await page.getByRole('button', { name: 'Remove Mot, class evening' }).click();
    await page.getByRole('link', { name: 'Kees, class evening' }).click();
    const other = await takeInHand(page);
    expect(await other.frame()).toBe(30);
    await page.getByRole('link', { name: 'Library' }).click();
    await page
      .getByText(/class evening\.mp4/)
      .first()
      .waitFor();
    await page.getByText('in 3 reviews').waitFor();
    const kept = await readdir(join(folder, 'class'), { recursive: true });
    expect(kept.filter((name) => name.endsWith('class evening.mp4'))).toHaveLength(1);
    expect(errors).toEqual([]);
  });
});
