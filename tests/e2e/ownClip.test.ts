import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildWindow, openWindow, startShell, takeInHand, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

const film = resolve(import.meta.dirname, '../../fixtures/demo/run-b.mp4');

let browser: Browser;
let shell: RunningShell;
let folder: string;
let clip: string;

beforeAll(async () => {
  await buildWindow();
  folder = await mkdtemp(join(tmpdir(), 'walkback-own-'));
  clip = join(folder, 'IMG 0042 – Übung.mov');
  // As a phone writes it: stored on its side with a matrix that turns it, and frames at uneven times.
  await promisify(execFile)('ffmpeg', [
    ...['-v', 'error', '-ss', '6', '-t', '14', '-i', film],
    ...['-vf', "scale=960:-2,transpose=2,select='not(eq(mod(n,7),3))'", '-vsync', 'passthrough'],
    ...['-c:v', 'libx264', '-preset', 'veryfast', '-bf', '2', '-g', '60', '-pix_fmt', 'yuv420p'],
    ...['-c:a', 'aac', '-metadata:s:v', 'rotate=90', clip],
  ]);
  browser = await startChromium();
  shell = await startShell('--library', join(folder, 'library'));
});

afterAll(async () => {
  await browser.close();
  await shell.stop();
  await rm(folder, { recursive: true, force: true });
});

it('brings in a clip of a phone with no course and reaches a report in under 25 acts', async () => {
  const { page, errors } = await openWindow(browser, shell);
  page.setDefaultTimeout(60_000);
  let acts = 0;
  const act = <T>(done: Promise<T>): Promise<T> => {
    acts++;
    return done;
  };

  await act(page.getByRole('link', { name: 'Library' }).click());
  await page.getByRole('button', { name: 'Bring in a video' }).waitFor();
  const chooser = page.waitForEvent('filechooser');
  await act(page.keyboard.press('b'));
  await act((await chooser).setFiles(clip));
  await act(page.getByLabel(/obstacles/i).fill('4'));
  await act(page.keyboard.press('Enter'));
  await page.waitForFunction(() => location.hash.startsWith('#/review/'));

  const hands = await takeInHand(page);
  await hands.press('Space');
  // Out of the hand, a quarter of a second and more apart: the figures matter less here than that there are some.
  for (const [enter, leave] of [
    [60, 90],
    [150, 180],
    [240, 270],
    [330, 360],
  ] as const) {
    await hands.playedTo(enter);
    await hands.press('d');
    await hands.playedTo(leave);
    await hands.press('f');
  }
  await hands.press('Space');
  await hands.kept();
  expect(await hands.read('Splits')).toMatch(/± /);

  await act(page.keyboard.press('F6'));
  await page.getByRole('heading', { name: 'Report', exact: true }).waitFor();
  await act(page.keyboard.press('w'));
  const opened = page.context().waitForEvent('page');
  await act(page.getByRole('button', { name: /^open/i }).first().click());
  const report = await opened;
  await report.waitForLoadState();
  const text = await report.locator('body').innerText();

  acts += hands.presses();
  expect(acts).toBeLessThan(25);
  console.log(`from an empty library to the report of a clip with no course: ${acts} acts`);
  expect(text).toMatch(/± /);
  expect(text).toMatch(/veterinarian/);
  expect(errors).toEqual([]);
});
