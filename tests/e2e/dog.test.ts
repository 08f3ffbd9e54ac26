import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { Dog } from '../../src/line/dog.ts';
import type { MemoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';
import { violations, wcag } from './violations.ts';
import { demoHost, demoReview } from './windowContents.ts';

/** The page about the dog, in a real browser over a host in memory. */
let stand: WindowStand;
let host: MemoryHost;
let page: Page;
beforeAll(async () => {
  stand = await windowStand();
});
beforeEach(async () => {
  host = await demoHost();
  page = await stand.open(host, `#/course/${demoReview}`);
  page.setDefaultTimeout(20_000);
  await page.getByRole('tab', { name: 'Dog' }).click();
});
afterEach(async () => {
  await page.context().close();
});
afterAll(async () => {
  await stand.close();
});

const named = (): string => host.review(demoReview)?.header.dog ?? '';
const kept = (): Dog | null | undefined => host.dogs.event().dogs[0]?.dog;
const type = async (label: string | RegExp, text: string): Promise<void> => {
  await page.getByLabel(label, { exact: true }).focus();
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.press('Delete');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
};

it('adds the dog that the review names; figures and skills are typed, refused, and taken back', async () => {
  const name = named();
  expect(name).not.toBe('');
  await page.getByRole('button', { name: `Add ${name} to the library` }).press('Enter');
  await expect.poll(kept).toMatchObject({ name, runner: {} });

  await type(/^Lands behind the bar/, '1,8');
  await expect.poll(() => kept()?.runner).toEqual({ landing: 1.8 });
  await page.getByText(/her own; usual is 1 to 2/).waitFor();
  await type(/^Lands behind the bar/, '400');
  await page.getByText(/takes a number from 0.1 to 5 m/).waitFor();
  expect(kept()?.runner).toEqual({ landing: 1.8 });

  await type('From the left, to 90°: done of tried', '3 of 10');
  await expect
    .poll(() => kept()?.skills.weaveEntries)
    .toEqual([{ side: 'off', band: 'to90', count: { done: 3, tried: 10 } }]);
  await page.getByText('11 to 60 in 100').waitFor();
  await page.getByLabel('tunnel', { exact: true }).press('Space');
  await expect.poll(() => kept()?.skills.neverMet).toEqual(['tunnel']);

  await page.getByRole('button', { name: /^Undo: Has never met/ }).press('Enter');
  await expect.poll(() => kept()?.skills.neverMet).toEqual([]);
  await type(/^Lands behind the bar/, '');
  await expect.poll(() => kept()?.runner).toEqual({});

  // What her runs tell is looked for on asking, becomes hers in one act, and is taken back in one.
  const run = host.review(demoReview);
  if (run) host.addReview({ ...run, id: 'the-same-again', title: 'The same again' });
  await page.getByRole('button', { name: `Look through 5 runs of ${name}` }).press('Enter');
  await page.getByText(/^Of 5 runs, 3 tell something of her figures, 1 with her line/).waitFor();
  await page.getByRole('cell', { name: /^\d[.\d]* ± \d[.\d]*, 6 times$/ }).waitFor();
  expect(await violations(page, { within: '#course-page', tags: wcag })).toEqual([]);
  await page.getByRole('button', { name: 'Take these over as her own' }).press('Enter');
  await expect.poll(() => Object.keys(kept()?.runner ?? {})).toContain('tunnelSpeed');
  await page.getByText('These are her own figures now.').waitFor();
  await page.getByRole('button', { name: 'Undo: figures from her runs' }).press('Enter');
  await expect.poll(() => kept()?.runner).toEqual({});
});

it('a dog is chosen for the review, renamed with it, and followed from another window', async () => {
  const tarn = Dog.parse({ id: 'd1', name: 'Tarn', runner: { landing: 2.4 } });
  host.dogs.put(tarn);
  await page.getByLabel('This review is about').selectOption('Tarn');
  await expect.poll(named).toBe('Tarn');
  await page.getByText(/her own; outside the usual 1 to 2/).waitFor();
  await type('Name', 'Tarn of the Hill');
  await expect.poll(() => kept()?.alsoCalled).toEqual(['Tarn']);
  await expect.poll(named).toBe('Tarn of the Hill');
  const there = kept();
  if (there) host.dogs.put({ ...there, runner: { landing: 1.5 } });
  await page.getByText(/her own; usual is 1 to 2/).waitFor();
  await page.getByLabel('This review is about').selectOption('no dog named');
  await expect.poll(named).toBe('');
  await type('A dog that is not in the list', 'Moss');
  await expect.poll(named).toBe('Moss');
  expect(host.dogs.event().dogs.map((k) => k.name)).toEqual(['Tarn of the Hill', 'Moss']);
});

it('a file of her goes out and comes in: by its button, by a drop, and with a way back', async () => {
  const willChoose = (path: string): Promise<void> =>
    page.evaluate((p) => {
      const file = { path: p, name: p.split('/').at(-1), bytes: 900 };
      (window as unknown as Record<string, unknown>)['filesToChoose'] = [file];
    }, path);
  const tarn = Dog.parse({ id: 'd1', name: named(), runner: { landing: 2.4 } });
  host.dogs.file('/v/tarn.dog.json', tarn);
  await willChoose('/v/tarn.dog.json');
  await page.getByRole('button', { name: 'Take in a dog’s file' }).press('Enter');
  await expect.poll(kept).toEqual(tarn);
  await page.getByText(/her own; outside the usual 1 to 2/).waitFor();
  await page.getByRole('button', { name: `Save a file of ${tarn.name}` }).press('Enter');
  await page.getByText(`A file of ${tarn.name} was saved.`).waitFor();
  const asked = await page.evaluate(() => (window as unknown as { asked: string[] }).asked);
  expect(asked).toEqual(['save dog-d1']);

  host.dogs.file('/home/coach/Videos/tarn.dog.json', { ...tarn, runner: { landing: 1.7 } });
  await page.evaluate(() => {
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File(['x'], 'tarn.dog.json'));
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
  });
  await page.getByText(/differs from “tarn\.dog\.json”\. She was left as she was/).waitFor();
  expect(kept()).toEqual(tarn);
  await page.getByRole('button', { name: 'Take what the file has' }).press('Enter');
  await expect.poll(() => kept()?.runner).toEqual({ landing: 1.7 });
  await page.getByRole('button', { name: 'Undo', exact: true }).press('Enter');
  await expect.poll(() => kept()?.runner).toEqual({ landing: 2.4 });
});

it('reads well to everyone, in both themes, and the map stays the larger part', async () => {
  const own = { topSpeed: 5, landing: 2.4 };
  host.dogs.put(Dog.parse({ id: 'd1', name: named(), runner: own, skills: { stay: { done: 1, tried: 2 } } }));
  await page.getByRole('heading', { name: 'How she runs' }).waitFor();
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await page.waitForFunction((theme) => getComputedStyle(document.body).colorScheme === theme, colorScheme);
    expect(await violations(page, { within: '#course-page', tags: wcag })).toEqual([]);
  }
  const panel = page.locator('#course-page');
  expect(await panel.evaluate((el) => el.scrollWidth - el.clientWidth)).toBe(0);
  expect((await panel.boundingBox())?.width).toBeLessThan(1280 / 2);
});
