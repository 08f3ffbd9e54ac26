import type { Page } from 'playwright';
import { expect } from 'vitest';
import { someFrames } from './clipSources.ts';
import type { PlainSource } from './page.ts';

/** Seeks at random and steps both ways; every number painted must be the one asked for. */
export async function walk(on: Page, source: PlainSource, asks: number, seed: number): Promise<void> {
  const random = someFrames(asks, source.pts.length, seed);
  const result = await on.evaluate(
    async ({ source: s, random: r, asks: n }) => {
      const { page } = window;
      const opened = await page.open(s);
      if (opened !== 'opened') return { opened };
      const last = s.pts.length - 1;
      const seeks = await page.seeks(r);
      const forward = await page.steps(0, n, 1);
      const backward = await page.steps(last, n, -1);
      return { opened, seeks, forward, backward, left: await page.close() };
    },
    { source, random, asks },
  );
  expect(result.opened).toBe('opened');
  for (const part of [result.seeks, result.forward, result.backward]) {
    expect(part).toEqual({ asks, wrong: [], troubles: [] });
  }
  expect(result.left).toBe(0);
}
