import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openWalkback, type Walkback } from './run/walkback.ts';

/** The same screens over the real program: loopback, host process, store, ffmpeg. */
const demoFolder = resolve(import.meta.dirname, '../../fixtures/demo');

let folder: string;
let walkback: Walkback;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'walkback library '));
  walkback = await openWalkback(['--library', join(folder, 'kept')]);
});
afterEach(async () => {
  await walkback.close();
  await rm(folder, { recursive: true, force: true });
});

it('brings in a video from this machine without copying it, and keeps all of it over a reload', async () => {
  const { page } = walkback;
  await page.evaluate(() => (location.hash = '#/settings'));
  await page.getByLabel('Path of the folder').fill(demoFolder);
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: `Take ${demoFolder} out` }).waitFor();
  await page.keyboard.press('Tab');
  await page.getByRole('heading', { name: 'Settings' }).click();
  await page.keyboard.press('F2');
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
  const { page } = walkback;
  const [chooser] = await Promise.all([
    page.waitForEvent('filechooser'),
    page.getByRole('button', { name: 'Take in a review file' }).click(),
  ]);
  await chooser.setFiles(join(demoFolder, 'first-evening.walkback.json'));
  await page.waitForFunction(() => location.hash.startsWith('#/review/'));
  await page.evaluate(() => (location.hash = location.hash.replace('review', 'report')));
  await page.getByText('all 19 taken').waitFor();
});
