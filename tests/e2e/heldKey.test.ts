import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildWindow, openWindow, startShell, takeInHand, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

let browser: Browser;
let shell: RunningShell;

beforeAll(async () => {
  await buildWindow();
  browser = await startChromium();
  shell = await startShell('--demo');
});
afterAll(async () => {
  await browser.close();
  await shell.stop();
});

it('a new library opens on a demo run; a held key travels frame by frame, and stops where it was let go', async () => {
  const { page, errors } = await openWindow(browser, shell, 'start');
  await page.getByRole('heading', { name: 'First evening: a cue too late' }).waitFor();
  // What the run says to work on goes into the coach's words by a key, and leads to its frame.
  await page.keyboard.press('F6');
  await page.getByRole('heading', { name: 'What this run says to work on' }).waitFor();
  await page.keyboard.press('t');
  await expect.poll(() => page.getByLabel('To train').inputValue()).toContain('Waiting at the start try 1');
  await page.getByRole('button', { name: 'Look at it' }).first().click();
  await page.getByText('Paw moved').first().waitFor();
  await page.keyboard.press('F2');
  await page.getByRole('link', { name: 'Mark it yourself' }).click();
  const hands = await takeInHand(page);
  await hands.stepTo(30);

  for (const [key, way] of [
    ['ArrowRight', 1],
    ['ArrowLeft', -1],
  ] as const) {
    const from = await hands.frame();
    // The second press without a release between is what a keyboard sends while a key is held.
    await page.keyboard.down(key);
    await page.keyboard.down(key);
    await page.waitForFunction(
      ({ start, by }) =>
        (Number(document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow')) - start) * by > 12,
      { start: from, by: way },
      { timeout: 60_000 },
    );
    await page.keyboard.up(key);
    const there = await hands.frame();
    await page.waitForTimeout(500);
    expect(await hands.frame()).toBe(there);
  }
  expect(errors).toEqual([]);
});
