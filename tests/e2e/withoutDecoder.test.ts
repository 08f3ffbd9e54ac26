import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildWindow, startShell, takeInHand, type RunningShell } from './reviewShell.ts';
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

it('where nothing can be decoded frame by frame, a working copy is stepped through by the browser’s player', async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  await context.addInitScript('delete globalThis.VideoDecoder');
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(shell.address);
  expect(await page.evaluate(() => typeof VideoDecoder)).toBe('undefined');
  await page.getByRole('link', { name: 'Mark it yourself' }).click();

  // The original: said to want a copy, and one is offered.
  await page.getByRole('button', { name: /working copy/ }).click();
  const hands = await takeInHand(page);
  await hands.stepTo(12);
  for (const [key, frame] of [
    ['ArrowRight', 13],
    ['ArrowRight', 14],
    ['ArrowLeft', 13],
  ] as const) {
    await hands.press(key);
    await page.waitForFunction(
      (want) => document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow') === String(want),
      frame,
    );
  }
  expect(errors).toEqual([]);
});
