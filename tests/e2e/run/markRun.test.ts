import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright';
import { RunTruth } from '../../../scripts/demoTruth.ts';
import { openWalkback, type Walkback } from './walkback.ts';

/** The film under "Mark it yourself" and when its obstacles were really taken. */
const truth = RunTruth.parse(
  JSON.parse(readFileSync(new URL('../../../fixtures/demo/run-b.truth.json', import.meta.url), 'utf8')),
);

let walkback: Walkback;
let page: Page;
let presses = 0;
const press = async (...keys: string[]): Promise<void> => {
  for (const key of keys) {
    presses++;
    await page.keyboard.press(key);
  }
};

const frameShown = (): Promise<number> =>
  page.evaluate(() =>
    Number(/frame ([\d,]+)/.exec(document.body.innerText)?.[1]?.replaceAll(',', '') ?? NaN),
  );

/** The text of every row of the panel's table under a tab. */
async function rowsUnder(tab: string): Promise<string[]> {
  await page.getByRole('tab', { name: tab }).click();
  await page.waitForTimeout(400);
  const rows = await page.getByRole('tabpanel').locator('tr').allInnerTexts();
  return rows.map((r) => r.replaceAll(/\s+/g, ' ').trim());
}

async function openYours(): Promise<void> {
  await page.waitForFunction(() => document.querySelector('canvas') !== null);
  await page.waitForFunction(() => !document.body.innerText.includes('Opening the clip'));
}

beforeAll(async () => {
  walkback = await openWalkback(['--demo']);
  page = walkback.page;
  await page.evaluate(() => (location.hash = '#/library'));
  await page.getByText('Mark it yourself').first().click();
  await openYours();
});
afterAll(() => walkback.close());

describe('a whole run by keyboard alone', () => {
  it('is marked with at most three presses an obstacle, while it plays', async () => {
    await press('Space');
    presses = 0;
    const edges = truth.taken.flatMap((t) => [
      { at: t.in.pts ?? 0, key: 'd' },
      { at: t.out.pts ?? 0, key: 'f' },
    ]);
    for (const edge of edges) {
      const frame = truth.frames.pts.findIndex((p) => p >= edge.at);
      while ((await frameShown()) < frame) await page.waitForTimeout(10);
      await press(edge.key);
    }
    expect(presses / truth.taken.length).toBeLessThanOrEqual(3);
    await press('Space');
    const taken = (await rowsUnder('Marks')).filter((r) => /^\d+ /.test(r));
    expect(taken.map((r) => Number(r.split(' ')[0]))).toEqual(truth.taken.map((t) => t.place));
  });

  it('takes five events, a cross and the start line', async () => {
    await press('End', 'ArrowUp', 'ArrowUp', 'e', 'h');
    await press('ArrowUp', 'ArrowUp', 'e', 'w');
    await press('ArrowUp', 'ArrowUp', 'e', 'b');
    await press('ArrowUp', 'ArrowUp', 'ArrowUp', 'e', 'r', 's');
    await press('ArrowUp', 'ArrowUp', 'ArrowUp', 'e', 't');
    await press('Home', 's', 's', '.', '.', 'f', '.', '.', 'r', 'Escape');
    const marks = (await page.getByRole('tabpanel').innerText()).toLowerCase();
    for (const event of ['happy sign', 'wide', 'bar down', 'refusal', 'reward'])
      expect(marks).toContain(event);
    const start = await (async () => {
      await page.getByRole('tab', { name: 'Start line' }).click();
      await page.waitForTimeout(400);
      return page.getByRole('tabpanel').innerText();
    })();
    expect(start).toMatch(/kept/i);

    // The cross at 3: from its take-off back by thirty frames for the cue, then on through its moments.
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await press('Home');
    for (let i = 0; i < 60; i++) {
      await press('ArrowDown');
      if (/take-off, 3/i.test(await page.locator('body').innerText())) break;
    }
    await press(',', ',', ',', 'c', 'f', '.', 'c', '.', '.', 'd', '.', '.', '.', 'e', 'l', 'Escape');
    await page.getByRole('tab', { name: 'Crosses' }).click();
    await page.waitForTimeout(800);
    expect(await page.getByRole('tabpanel').innerText()).toMatch(/front/i);
  });

  it('is all there after a reload, and the report reads the same figures', async () => {
    const before = { marks: await rowsUnder('Marks'), splits: await rowsUnder('Splits') };
    expect(before.splits.length).toBeGreaterThanOrEqual(19);
    await page.reload();
    await openYours();
    expect(await rowsUnder('Marks')).toEqual(before.marks);
    expect(await rowsUnder('Splits')).toEqual(before.splits);

    await press('F6');
    await page.getByRole('heading', { name: 'Report', exact: true }).waitFor();
    await press('w');
    const opened = page.context().waitForEvent('page');
    await page.getByRole('button', { name: /open/i }).first().click({ timeout: 120_000 });
    const report = await opened;
    await report.waitForLoadState();
    const text = (await report.locator('body').innerText()).replaceAll(/\s+/g, ' ');
    const figures = before.splits.flatMap((row) => row.match(/−?[\d.]+ s ± [\d.]+/g) ?? []);
    expect(figures.length).toBeGreaterThanOrEqual(19);
    for (const figure of figures) expect(text).toContain(figure);
  });
});
