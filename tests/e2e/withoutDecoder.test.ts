import { afterAll, beforeAll, expect, it } from 'vitest';
import { paintedReview, type PaintedReview } from './paintedReview.ts';
import { buildWindow } from './reviewShell.ts';

let r: PaintedReview;

beforeAll(async () => {
  await buildWindow();
  // The original: said to want a copy, and one is offered.
  r = await paintedReview(
    'h264Silent',
    {},
    {
      script: 'delete globalThis.VideoDecoder',
      inReview: (page) => page.getByRole('button', { name: /working copy/ }).click(),
    },
  );
});
afterAll(() => r.close());

it('where nothing can be decoded frame by frame, a working copy is stepped through by the browser’s player', async () => {
  const { page, hands } = r;
  expect(await page.evaluate(() => typeof VideoDecoder)).toBe('undefined');
  await hands.stepTo(12);
  await expect.poll(() => r.still()).toBe(12);
  for (const [key, frame] of [
    ['ArrowRight', 13],
    ['ArrowRight', 14],
    ['ArrowLeft', 13],
  ] as const) {
    await hands.press(key);
    await expect.poll(() => hands.frame()).toBe(frame);
    await expect.poll(() => r.still()).toBe(frame);
  }
  expect(r.errors).toEqual([]);
});
