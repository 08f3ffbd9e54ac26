import { execFile } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildWindow, openWindow, startShell, takeInHand, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';
import { violations } from './violations.ts';

/**
 * Two angles of one run: a film of the demo, cut at two places and mirrored once, so that how far apart they begin is
 * known by construction: the second begins `later` seconds into the first.
 */
const film = resolve(import.meta.dirname, '../../fixtures/demo/run-b.mp4');
const later = 2.5;

let browser: Browser;
let shell: RunningShell;
let folder: string;
let clips: [string, string];

beforeAll(async () => {
  await buildWindow();
  folder = await mkdtemp(join(tmpdir(), 'walkback-angles-'));
  clips = [join(folder, 'near side.mp4'), join(folder, 'far side.mp4')];
  const cut = (from: number, filter: string, to: string) =>
    promisify(execFile)('ffmpeg', [
      ...['-v', 'error', '-y', '-ss', String(from), '-t', '24', '-i', film, '-vf', filter],
      ...['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p', '-c:a', 'aac', to],
    ]);
  await cut(10, 'scale=640:-2', clips[0]);
  await cut(10 + later, 'scale=640:-2,hflip,fps=25', clips[1]);
  browser = await startChromium();
  shell = await startShell('--library', join(folder, 'library'));
});

afterAll(async () => {
  await browser.close();
  await shell.stop();
  await rm(folder, { recursive: true, force: true });
});

const shown = (page: Page): Promise<string> =>
  page.getByRole('group', { name: 'Clip' }).getByRole('combobox').locator('option:checked').innerText();
const at = async (page: Page): Promise<number> =>
  Number(
    (await page.getByRole('group', { name: 'Playing' }).locator('strong').first().innerText())
      .replace(/[^\d.−-]/g, '')
      .replace('−', '-'),
  );

it('lines two angles up by sound, keeps the instant when the angle changes, and lets a shown moment override', async () => {
  const { page, errors } = await openWindow(browser, shell);
  page.setDefaultTimeout(60_000);

  // One clip first, then a further one of the same run from the review itself.
  await page.getByRole('link', { name: 'Library' }).click();
  await page.getByRole('button', { name: 'Bring in a video' }).waitFor();
  const first = page.waitForEvent('filechooser');
  await page.keyboard.press('b');
  await (await first).setFiles(clips[0]);
  await page.getByLabel(/obstacles/i).fill('4');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => location.hash.startsWith('#/review/'));
  const hands = await takeInHand(page);
  await hands.press('n');
  const dialog = page.getByRole('dialog', { name: 'Clips of this run' });
  await dialog.getByText('This review has one clip').waitFor();
  const second = page.waitForEvent('filechooser');
  await dialog.getByRole('button', { name: 'Add a clip of this run' }).click();
  await (await second).setFiles(clips[1]);
  await page.getByRole('button', { name: 'Add to the review' }).click();
  await page.getByRole('button', { name: /not lined up/ }).waitFor();

  // By sound.
  await page.keyboard.press('n');
  await dialog.getByLabel('Metres between the cameras').fill('0');
  expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
  await page.keyboard.press('Enter');
  await dialog.getByText(/Lined up by sound, ± 0\.0\d+ s, with 0 m/).waitFor();
  await page.keyboard.press('Escape');
  await hands.kept();
  expect(await hands.undoes()).toMatch(/far side\.mp4 lined up by sound/);

  // The same instant on the other angle: 25 frames a second there, 60 here.
  await hands.stepTo(600);
  const here = await at(page);
  await hands.press('q');
  await page.waitForFunction(() => document.querySelector('[data-shown="true"]') !== null);
  expect(await shown(page)).toContain('far side');
  expect(Math.abs((await at(page)) - here)).toBeLessThan(0.045);
  expect(await hands.frame()).toBe(Math.floor((600.5 / 60 - later) * 25));
  // And back to the very frame it came from.
  await hands.press('q');
  await page.waitForFunction(() => document.querySelector('[data-shown="true"]') !== null);
  expect(await shown(page)).toContain('near side');
  expect(await hands.frame()).toBe(600);

  // An instant that the other clip does not have.
  await hands.press('Home', 'q');
  await page.getByText(/This clip begins 2\.\d+ s later\. Its first frame is shown\./).waitFor();
  expect(await hands.frame()).toBe(0);
  await hands.press('q');
  await page.waitForFunction(() => document.querySelector('[data-shown="true"]') !== null);
  expect(await hands.frame()).toBe(0);

  // A moment shown on both clips takes the place of the sound.
  await hands.stepTo(600);
  await page.keyboard.press('n');
  await dialog.getByRole('button', { name: 'Show the moment' }).click();
  await hands.press('s');
  await page.waitForFunction(() => document.querySelector('[data-shown="true"]') !== null);
  expect(await shown(page)).toContain('far side');
  await hands.press('s');
  await hands.kept();
  expect(await hands.undoes()).toMatch(/far side\.mp4 lined up by a moment, ± 0\.03\d? s/);
  await page.keyboard.press('n');
  await dialog.getByText(/That is surer than sound, so it stays/).waitFor();
  await page.keyboard.press('Escape');

  await dialog.waitFor({ state: 'hidden' });

  // Undo brings the sound back.
  await page.keyboard.press('Control+z');
  await page.getByRole('button', { name: /^Undo.*lined up by sound/ }).waitFor();
  await page.keyboard.press('n');
  await dialog.getByText(/Lined up by sound/).waitFor();
  expect(errors).toEqual([]);
});
