import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countedCourse } from '../../src/course/course.ts';
import { memoryHost, type MemoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';
import { violations, wcag } from './violations.ts';
import { demoHost, demoReview } from './windowContents.ts';

/** Every page and every mode of the review screen, over a host in memory whose clips have times but no pictures. */
let stand: WindowStand;
beforeAll(async () => {
  stand = await windowStand();
});
afterAll(async () => {
  await stand.close();
});

const strip = (page: Page): Promise<string> =>
  page.getByRole('region', { name: 'Keys in use now' }).innerText();

describe.each(['light', 'dark'] as const)('in %s', (colorScheme) => {
  it('every page of the panel and every mode can be used by everybody', async () => {
    const page = await stand.open(await demoHost(), `#/review/${demoReview}`, { colorScheme });
    await page.getByRole('tab', { name: 'Marks' }).waitFor();
    const problems: Record<string, string[]> = {};
    for (const tab of ['Crosses', 'Start line', 'Splits', 'Map', 'Marks']) {
      await page.getByRole('tab', { name: tab }).click();
      problems[tab] = await violations(page, { tags: wcag });
    }
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    problems['a mark that is written on'] = await violations(page, { tags: wcag });
    await page.keyboard.press('Escape');
    for (const keys of [
      ['e'],
      ['e', 'r'],
      ['e', 'a'],
      ['c'],
      ['c', 'k'],
      ['s'],
      ['p'],
      ['b'],
      ['F9'],
      ["'"],
    ]) {
      for (const key of keys) await page.keyboard.press(key);
      problems[keys.join(' ')] = await violations(page, { tags: wcag });
      for (const _ of keys) await page.keyboard.press('Escape');
    }
    expect(Object.entries(problems).filter(([, list]) => list.length > 0)).toEqual([]);
    await page.context().close();
  });
});

describe('the strip of keys', () => {
  it('changes with the mode and speaks the trade for the obstacle at hand', async () => {
    const page = await stand.open(await demoHost(), '#/review/demo-mark-it-yourself');
    await page.getByRole('tab', { name: 'Marks' }).waitFor();
    expect(await strip(page)).toMatch(/take-off[\s\S]*landing[\s\S]*cross[\s\S]*start line/);
    await page.keyboard.press('5');
    expect(await strip(page)).toMatch(/entry[\s\S]*exit/);
    await page.keyboard.press('1');
    await page.keyboard.press('0');
    expect(await strip(page)).toMatch(/first paw on[\s\S]*last paw off/);
    await page.keyboard.press('Escape');
    await page.keyboard.press('e');
    expect(await strip(page)).toContain('bar down');
    await page.keyboard.press('r');
    expect(await strip(page)).toContain('run-out');
    await page.keyboard.press('Escape');
    await page.keyboard.press('s');
    expect(await strip(page)).toMatch(/Start line, try 1[\s\S]*paw moved/);
    await page.context().close();
  });

  it('shows the keys that the coach chose, and they work', async () => {
    const host = await demoHost();
    const page = await stand.open(host, '#/review/demo-mark-it-yourself');
    await page.getByRole('tab', { name: 'Marks' }).waitFor();
    await page.goto(`${new URL(page.url()).origin}/#/settings`);
    await page.goBack();
    await page
      .getByRole('button', { name: /landing/ })
      .first()
      .waitFor();
    await page.keyboard.press('g');
    await page.getByRole('rowheader', { name: '1' }).waitFor();
    await expect.poll(() => host.review('demo-mark-it-yourself')?.marks.length).toBe(1);
    await page.context().close();
  });
});

describe('without a course', () => {
  it('numbers go on by themselves and the count grows with them', async () => {
    const host = memoryHost();
    host.addClip(
      { id: 'k', name: 'IMG_4211.MOV', frames: 500, mediaId: null, state: 'missing' },
      Array.from({ length: 500 }, (_, i) => i * 20),
    );
    host.addReview({
      id: 'bare',
      title: 'Only a film',
      course: countedCourse(0),
      footage: [{ id: 'f', clipId: 'k', name: 'IMG_4211.MOV', speed: [], offset: 0, rate: 1 }],
    });
    const page = await stand.open(host, '#/review/bare');
    await page.getByText('is not where it was').waitFor();
    await page.getByRole('button', { name: /IMG_4211/ }).waitFor();
    for (let n = 0; n < 3; n++) for (const key of ['.', '.', 'd', '.', 'f']) await page.keyboard.press(key);
    const rows = page.getByRole('tabpanel').getByRole('rowheader');
    await rows.nth(2).waitFor();
    expect(await rows.allInnerTexts()).toEqual(['1', '2', '3']);
    await expect.poll(() => host.review('bare')?.course.steps.map((s) => s.number)).toEqual([1, 2, 3]);
    expect(await violations(page, { tags: wcag })).toEqual([]);
    await page.context().close();
  });
});

describe('a clip that cannot be shown yet', () => {
  it.each([
    ['needsCopy', 'Make a working copy'],
    ['missing', /Find|Link|relink/i],
  ] as const)('%s says so and offers the next step, and the marks can be read', async (state, offer) => {
    const host: MemoryHost = await demoHost();
    const clip = host.review(demoReview)?.footage[0]?.clipId;
    if (clip === undefined) throw new Error('the demo has no clip');
    host.addClip({ id: clip, name: 'run-a.mp4', state, mediaId: null }, framesOf(host));
    const page = await stand.open(host, `#/review/${demoReview}`);
    await page.getByRole('region', { name: 'Footage' }).getByRole('button', { name: offer }).waitFor();
    await page.getByRole('rowheader', { name: '19' }).waitFor();
    await page.context().close();
  });
});

/** Times that every mark of the demo falls on. */
function framesOf(host: MemoryHost): number[] {
  const last = Math.max(...(host.review(demoReview)?.marks.map((m) => m.pts) ?? [0]));
  return Array.from({ length: last + 2 }, (_, i) => i).filter((i) => i % 256 === 0);
}
