import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { clip } from '../../scripts/clips/make.ts';
import { readPaintedNumber } from '../../scripts/clips/painted.ts';
import { memoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';
import { buildWindow, openWindow, startShell, takeInHand, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

const shots = process.env['WALKBACK_SHOTS'];
const shoot = async (page: Page, name: string): Promise<void> => {
  if (shots === undefined) return;
  await mkdir(shots, { recursive: true });
  await page.screenshot({ path: join(shots, `${name}.png`) });
};

describe('a clip that steps slowly', () => {
  let browser: Browser;
  let shell: RunningShell;
  let folder: string;
  let slow: string;

  beforeAll(async () => {
    await buildWindow();
    folder = await mkdtemp(join(tmpdir(), 'walkback-copies-'));
    slow = join(folder, 'one key frame.mp4');
    // Painted pictures after a single key frame, so many that the copy is not there before one has looked.
    await promisify(execFile)('ffmpeg', [
      ...[
        '-v',
        'error',
        '-stream_loop',
        '2',
        '-i',
        (await clip('h264')).path,
        '-map',
        '0:v',
        '-vsync',
        'passthrough',
      ],
      ...['-vf', 'scale=1280:720', '-c:v', 'libx264', '-preset', 'ultrafast', '-crf', '18'],
      ...['-g', '9999', '-sc_threshold', '0', '-pix_fmt', 'yuv420p', slow],
    ]);
    browser = await startChromium();
    shell = await startShell('--library', join(folder, 'library'));
  });
  afterAll(async () => {
    await browser.close();
    await shell.stop();
    await rm(folder, { recursive: true, force: true });
  });

  it('is shown at once, says why it gets a copy, and goes over to it on the frame that is shown', async () => {
    const { page, errors } = await openWindow(browser, shell);
    page.setDefaultTimeout(200_000);
    await page.getByRole('link', { name: 'Library' }).click();
    await page.getByRole('button', { name: 'Bring in a video' }).waitFor();
    const chooser = page.waitForEvent('filechooser');
    await page.keyboard.press('b');
    await (await chooser).setFiles(slow);
    await page.getByLabel(/obstacles/i).fill('4');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => location.hash.startsWith('#/review/'));

    const hands = await takeInHand(page);
    await page
      .getByText(/key frames lie more than 250 frames apart/)
      .first()
      .waitFor();
    await hands.stepTo(137);
    await seen(page, 137);
    await watch(page);
    await shoot(page, 'review-copying');
    // The note goes when the copy is there; that the picture went over is said in passing.
    await page.getByText(/key frames lie more than 250 frames apart/).waitFor({ state: 'detached' });
    await page.locator('[data-shown="true"]').waitFor({ state: 'attached' });
    await seen(page, 137);
    const numbers = await watched(page);
    // While the clip went over to its copy nothing but this one frame was ever to be seen.
    expect([...new Set(numbers)]).toEqual([137]);
    expect(await hands.frame()).toBe(137);
    await hands.press('ArrowLeft');
    await seen(page, 136);
    await hands.press('w');
    await page.getByText('This clip has its working copy already.').waitFor();

    await page.getByRole('link', { name: 'Library' }).click();
    await page.getByText(/Stepped through by a working copy with the same frames/).waitFor();
    await shoot(page, 'library-copied');
    await page.getByRole('button', { name: 'Show the original of one key frame.mp4 again' }).click();
    await page.getByRole('button', { name: 'Make a working copy of one key frame.mp4' }).waitFor();
    await page.getByText(/No working copy is made until you ask for one/).waitFor();
    await page.goto(`${page.url().split('#')[0] ?? ''}#/settings`);
    await page.getByText('There are none now.').waitFor();
    await shoot(page, 'settings-copies');
    expect(errors).toEqual([]);
  }, 300_000);

  /** Waits until the visible picture carries a number. */
  async function seen(page: Page, number: number): Promise<void> {
    await expect.poll(async () => painted(await picture(page)), { timeout: 30_000 }).toBe(number);
  }
  const painted = (rgba: readonly number[] | null): number | null =>
    rgba === null ? null : readPaintedNumber(rgba, 160, 120);
  const picture = (page: Page): Promise<readonly number[] | null> =>
    page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('[data-shown="true"] > canvas');
      if (!canvas || canvas.style.visibility === 'hidden') return null;
      const small = new OffscreenCanvas(160, 120).getContext('2d');
      small?.drawImage(canvas, 0, 0, 160, 120);
      return small ? [...small.getImageData(0, 0, 160, 120).data] : null;
    });
  /** Notes every different picture that is visible at any drawing of the screen from now on. */
  const watch = (page: Page): Promise<void> =>
    page.evaluate(() => {
      const kept: number[][] = [];
      Object.assign(window, { kept });
      const small = new OffscreenCanvas(160, 120).getContext('2d', { willReadFrequently: true });
      let before = '';
      const look = (): void => {
        const canvas = document.querySelector<HTMLCanvasElement>('[data-shown="true"] > canvas');
        if (canvas && canvas.style.visibility !== 'hidden' && small) {
          small.drawImage(canvas, 0, 0, 160, 120);
          const { data } = small.getImageData(0, 0, 160, 120);
          const sign = data.filter((_, i) => i % 397 === 0).join();
          if (sign !== before) kept.push([...data]);
          before = sign;
        }
        requestAnimationFrame(look);
      };
      look();
    });
  const watched = async (page: Page): Promise<(number | null)[]> => {
    const kept = await page.evaluate(() => (window as unknown as { kept: number[][] }).kept);
    return kept.map(painted);
  };
});

describe('the library', () => {
  let stand: WindowStand;
  let page: Page;
  beforeAll(async () => {
    stand = await windowStand();
  });
  afterEach(async () => {
    await page.context().close();
  });
  afterAll(async () => {
    await stand.close();
  });
  const job = { name: 'clip.workingCopy', done: 0, total: null, trouble: null, result: null } as const;

  it('shows the line of copies, puts one first, and stops one', async () => {
    const host = memoryHost();
    for (const [i, name] of ['a.mp4', 'b.mp4', 'c.mp4', 'd.mp4'].entries()) {
      host.addClip({ id: name, name, slow: i === 0 ? 'largePicture' : null });
      const state = i === 0 ? 'running' : 'waiting';
      host.addJob({
        ...job,
        id: `j${i}`,
        about: name,
        subject: name,
        state,
        done: i === 0 ? 3 : 0,
        total: 10,
      });
    }
    page = await stand.open(host);
    await page.getByText('waiting: next in line').waitFor();
    await page.getByText('waiting: 2 before it').waitFor();
    await shoot(page, 'library-line');
    await page.getByRole('button', { name: 'Do d.mp4 first' }).click();
    await page.getByRole('button', { name: 'Do b.mp4 first' }).waitFor();
    expect(await page.getByRole('button', { name: 'Do d.mp4 first' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Stop work on c.mp4' }).click();
    await page.getByText('waiting: 1 before it').waitFor();
    expect(host.asked.map((a) => a.name)).toEqual(expect.arrayContaining(['job.first', 'job.cancel']));
  });

  it('offers half-pictures as frames of an interlaced clip only', async () => {
    const host = memoryHost();
    host.addClip({
      id: 'a',
      name: 'a.mts',
      state: 'workingCopy',
      why: 'container',
      interlaced: true,
      copy: { bytes: 9 },
    });
    host.addClip({ id: 'b', name: 'b.mp4' });
    page = await stand.open(host);
    // It is ticked when the host has said so, not by the press itself.
    const fields = page.getByRole('checkbox', { name: 'Half-pictures as frames' });
    await fields.click();
    await expect.poll(() => fields.isChecked()).toBe(true);
    await expect
      .poll(() => host.asked.filter((a) => a.name === 'clip.fields').map((a) => a.args))
      .toEqual([{ clipId: 'a', fields: true }]);
    expect(await page.getByRole('checkbox').count()).toBe(1);
    await shoot(page, 'library-fields');
  });

  it('tells in Settings what the copies take up, sets the most, and removes them', async () => {
    const host = memoryHost();
    host.addClip({ id: 'a', name: 'a.mp4', copy: { bytes: 3_200_000_000 } });
    page = await stand.open(host, '#/settings');
    await page.getByText('1 copy, 3.2 GB in all.').waitFor();
    const most = page.getByLabel('Most room, in gigabytes');
    await most.fill('half of it');
    await most.press('Enter');
    await page.getByText('A whole number of gigabytes').waitFor();
    await most.fill('7');
    await most.press('Enter');
    await expect
      .poll(() => host.asked.filter((a) => a.name === 'preferences.set').map((a) => a.args))
      .toMatchObject([{ preferences: { copiesMost: 7 } }]);
    await shoot(page, 'settings-store');
    await page.getByRole('button', { name: 'Remove them all' }).click();
    await page.getByText('All working copies were removed.').waitFor();
    await page.getByText('There are none now.').waitFor();
  });
});
