import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { buildWindow, openWindow, startShell, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

/** The same screens over the real program: loopback, host process, store, ffmpeg. */
const demoFolder = resolve(import.meta.dirname, '../../fixtures/demo');

let folder: string;
let browser: Browser;
let shell: RunningShell;
let page: Page;
beforeAll(async () => {
  await buildWindow();
  browser = await startChromium();
});
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'walkback library '));
  shell = await startShell('--library', join(folder, 'kept'), '--allow', demoFolder);
  ({ page } = await openWindow(browser, shell));
  page.setDefaultTimeout(60_000);
  await page.waitForSelector('h1');
});
afterEach(async () => {
  await page.context().close();
  await shell.stop();
  await rm(folder, { recursive: true, force: true, maxRetries: 3 });
});
afterAll(async () => {
  await browser.close();
});

it('brings in a video from this machine without copying it, and keeps all of it over a reload', async () => {
  await page.keyboard.press('m');
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('button', { name: 'demo', exact: true }).click();
  await dialog.getByLabel('run-a.mp4').check();
  await dialog.getByRole('button', { name: 'Bring in 1 file' }).click();
  await dialog.getByLabel('Title').fill('An evening of our own');
  await dialog.getByLabel('Dog').fill('Fen');
  await dialog.getByLabel('How many obstacles').fill('19');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => location.hash.startsWith('#/review/'));
  const hash = await page.evaluate(() => location.hash);

  await page.evaluate((to) => (location.hash = to), hash.replace('review', 'course'));
  await page.getByLabel('What you call 2').fill('the blue one');
  await page.keyboard.press('Enter');
  await page.evaluate((to) => (location.hash = to), hash.replace('review', 'report'));
  await page.getByLabel('What went well').fill('She waited for the word.');
  await page.getByRole('button', { name: 'Write the report' }).click();
  await page.getByText('It shows the review as it is now.').waitFor();
  expect(await page.getByText(join(folder, 'kept', 'reports')).count()).toBe(1);
  const saved = async (button: string): Promise<Buffer> => {
    const coming = page.waitForEvent('download');
    await page.getByRole('button', { name: button }).click();
    return readFile(await (await coming).path());
  };
  expect((await saved('Save as PDF')).subarray(0, 5).toString()).toBe('%PDF-');
  const files = unzipSync(await saved('Save the figures'));
  expect(Object.keys(files)).toContain('An-evening-of-our-own-figures/splits.csv');

  await page.reload();
  await page.waitForSelector('h1');
  expect(await page.getByLabel('What went well').inputValue()).toBe('She waited for the word.');
  await page.evaluate((to) => (location.hash = to), hash.replace('review', 'course'));
  expect(await page.getByLabel('What you call 2').inputValue()).toBe('the blue one');
  await page.getByLabel('What you call 2').blur();
  await page.keyboard.press('F2');
  const row = page.getByRole('row', { name: 'An evening of our own' });
  await row.getByText('ready').waitFor();
  expect(await row.textContent()).toContain('Fen');
});

it('takes in a review file that is handed to the browser, and shows it as it was marked', async () => {
  const [chooser] = await Promise.all([
    page.waitForEvent('filechooser'),
    page.getByRole('button', { name: 'Take in a review file' }).click(),
  ]);
  await chooser.setFiles(join(demoFolder, 'first-evening.walkback.json'));
  await page.waitForFunction(() => location.hash.startsWith('#/review/'));
  await page.evaluate(() => (location.hash = location.hash.replace('review', 'report')));
  await page.getByText('all 19 taken').waitFor();

  // The coach's hand in the report: a sentence in her words, a still left out, one page for herself.
  const sentence = page.getByLabel('Front cross at 3 (bar jump, the yellow one)', { exact: true });
  expect(await sentence.inputValue()).toMatch(/^The cue came .* after take-off\./);
  await sentence.fill('Next time a stride sooner.');
  await sentence.blur();
  await page.getByText('16 of 16 stills').waitFor();
  await page.getByLabel(/^Front cross at 3 .*: take-off, frame \d+$/).uncheck();
  await page.getByText('15 of 16 stills').waitFor();
  await page.getByLabel('For your own copy only').fill('Look at her left hind.');
  await page.getByLabel('For your own copy only').blur();
  await page.getByLabel('How much').selectOption('one page');
  await page.getByLabel('For whom').selectOption('you, the coach');
  const written = async (): Promise<string> => {
    await page.getByRole('button', { name: /^Write (the report|it again)/ }).click();
    await page.getByText('It shows the review as it is now.').waitFor();
    return readFile(
      await page.locator('dd', { hasText: join(folder, 'kept', 'reports') }).innerText(),
      'utf8',
    );
  };
  const short = await written();
  expect(short).toContain('Next time a stride sooner.');
  expect(short).toContain('own copy');
  expect(short).not.toContain('<table');
  await page.getByLabel('How much').selectOption('everything');
  await page.getByText('This file is of another kind').waitFor();
  const coach = await written();
  expect(coach).toContain('Look at her left hind.');
  expect(coach).toContain('Next time a stride sooner.');
  await page
    .getByRole('button', { name: 'Front cross at 3 (bar jump, the yellow one): as measured again' })
    .click();
  await expect.poll(() => sentence.inputValue()).toMatch(/^The cue came/);
});
