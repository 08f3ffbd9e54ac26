import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fci2023 } from '../../src/course/rules/fci2023.ts';
import { ReviewDocument } from '../../src/review/document.ts';
import type { Quantity } from '../../src/time/quantity.ts';
import { figure } from '../../src/words/figures.ts';
import { cli } from '../unit/app-cli/cli.ts';
import type { MemoryHost } from '../unit/app-window/memoryHost.ts';
import { windowStand, type WindowStand } from './libraryWindow.ts';
import { demoHost } from './windowContents.ts';

/**
 * The pages of a review that tell figures, by keyboard alone: score, splits, sections, kinds, speeds, what to work on, and
 * a cross found on the ground. Figures are those of the command line, or worked by hand from its moments.
 */
const id = 'demo-a-month-later';
const file = resolve(import.meta.dirname, '../../fixtures/demo/a-month-later.walkback.json');

interface Told {
  readonly clock: { readonly time: Quantity };
  readonly splits: readonly { readonly to: number; readonly time: Quantity }[];
  readonly taken: readonly {
    readonly place: number;
    readonly kind: string;
    readonly out: { readonly at: Quantity };
    readonly on: Quantity;
  }[];
  readonly line: {
    readonly stretches: readonly { readonly to: number; readonly speed: Quantity; readonly gap: boolean }[];
  };
  readonly score: { readonly words: string } | null;
}

let stand: WindowStand;
let host: MemoryHost;
let page: Page;
let told: Told;
let folder: string;

/** The demo's run by the worked rule book, the course time 36.36 s: its clock reads 36.367 s, a sixtieth either way. */
async function scoredDemo(): Promise<ReviewDocument> {
  const review = ReviewDocument.parse(JSON.parse(await readFile(file, 'utf8')));
  return {
    ...review,
    header: { ...review.header, runKind: 'trial' },
    course: {
      ...review.course,
      ruleBook: fci2023.id,
      timing: { statedStandard: 36.36, statedMaximum: 60 },
    },
  };
}

beforeAll(async () => {
  const document = await scoredDemo();
  folder = await mkdtemp(join(tmpdir(), 'walkback-pages-'));
  const path = join(folder, 'scored.walkback.json');
  await writeFile(path, JSON.stringify(document));
  const ran = await cli('analyse', path, '--json');
  expect(ran.code, ran.err).toBe(0);
  told = JSON.parse(ran.out) as Told;
  stand = await windowStand();
  host = await demoHost();
  const stored = host.review(id);
  if (!stored) throw new Error('the demo is not there');
  host.addReview({
    ...stored,
    title: document.header.title,
    header: document.header,
    course: document.course,
  });
  // The film's own clock, so that figures are the run's.
  for (const { name, clip } of document.footage)
    host.addClip(
      { id: clip.sha256.slice(0, 8), name, sha256: clip.sha256, frames: clip.pts.length, mediaId: name },
      clip.pts,
      clip.timeBase,
    );
  page = await stand.open(host, `#/review/${id}`);
  await page.getByRole('tab', { name: 'Marks' }).waitFor();
});
afterAll(async () => {
  await stand.close();
  await rm(folder, { recursive: true, force: true });
});

/** Turns the pages of the panel with the key for it. */
async function turnTo(tab: string): Promise<void> {
  const wanted = page.getByRole('tab', { name: tab });
  for (let n = 0; n < 8 && (await wanted.getAttribute('aria-selected')) !== 'true'; n++)
    await page.keyboard.press('t');
  expect(await wanted.getAttribute('aria-selected')).toBe('true');
}

/** Goes to a control with the key that goes from one to the next. */
async function tabTo(control: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  await control.waitFor();
  for (let n = 0; n < 150; n++) {
    if (await control.evaluate((e) => e === document.activeElement)) return;
    await page.keyboard.press(key);
  }
  throw new Error('the keyboard does not come to it');
}

const shown = (name: string): Locator => page.locator(`[data-figure="${name}"]`);
const again = async (): Promise<void> => {
  await page.reload();
  await page.getByRole('tab', { name: 'Marks' }).waitFor();
};

describe('the pages of figures, by keyboard', () => {
  it('scores by the rule book, and says both scores where the plus or minus lies across the course time', async () => {
    await turnTo('Splits');
    await expect.poll(() => shown('runTime').innerText()).toBe(figure(told.clock.time));
    // 36.367 s read as 36.37: a hundredth over; a sixtieth faster is 36.35, within; a sixtieth slower 36.38.
    const words = 'faults (0.00 on the course and 0.01 for time)';
    await expect.poll(() => shown('score').innerText()).toContain(`0.01 ${words}`);
    expect(told.score?.words).toContain(`0.01 ${words}`);
    const between = await shown('score-between').innerText();
    expect(between).toBe('The plus or minus of the time leaves it open between 0.00 and 0.02 faults.');
    await tabTo(page.getByLabel('Run', { exact: true }));
    // In class.
    await page.keyboard.press('i');
    await expect.poll(() => host.review(id)?.header.runKind).toBe('class');
  });

  it('tells splits and speeds, and over which line; sections that the coach names are kept', async () => {
    const row = page.getByRole('row', { name: /^3 – 4|^4/ }).first();
    await row.waitFor();
    const fourth = told.splits.find((s) => s.to === 4)?.time.value.toFixed(2);
    await expect.poll(() => page.getByRole('tabpanel').innerText()).toContain(fourth);
    // The line's stretches from the command line: 4 was seen, of 5 a part is hidden in the tunnel, 19 was not marked.
    const speedOf = (to: number) => told.line.stretches.find((s) => s.to === to);
    const over = (to: number): Promise<string | null> =>
      page.locator('[data-over]', { has: shown(`speed-${to}`) }).getAttribute('data-over');
    await expect.poll(() => over(4), { timeout: 20_000 }).toBe('real');
    expect(speedOf(4)).toMatchObject({ gap: false });
    const fast = (text: string): number => Number(/^[\d.]+/.exec(text)?.[0]);
    expect(fast(await shown('speed-4').innerText())).toBeCloseTo(speedOf(4)?.speed.value ?? NaN, 1);
    expect(speedOf(5)).toMatchObject({ gap: true });
    expect(await over(5)).toBe('realPart');
    expect(speedOf(19)).toBeUndefined();
    await expect.poll(() => over(19), { timeout: 20_000 }).toBe('likely');

    // By kind: the mean over the bar jumps, from the command line's times on each.
    const jumps = told.taken.filter((t) => t.kind === 'barJump');
    const mean = jumps.reduce((sum, t) => sum + t.on.value, 0) / jumps.length;
    expect(fast(await shown('kind-barJump').innerText())).toBeCloseTo(mean, 2);

    await tabTo(page.getByRole('button', { name: 'Add a section' }));
    await page.keyboard.press('Enter');
    await tabTo(page.getByLabel('Name of section 1'), 'Shift+Tab');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('The opening');
    await page.keyboard.press('Enter');
    await tabTo(page.getByLabel('The opening: to'));
    await page.keyboard.press('4');
    await expect
      .poll(() => host.review(id)?.header.sections)
      .toMatchObject([{ name: 'The opening', from: 0, to: 4 }]);
    // From the start of the clock to out of 4.
    const opening = figure(told.taken.find((t) => t.place === 4)?.out.at as Quantity);
    await expect.poll(() => shown('section-1').innerText()).toBe(opening);
    await again();
    await turnTo('Splits');
    await expect.poll(() => page.getByLabel('Name of section 1').inputValue()).toBe('The opening');
    await expect.poll(() => shown('section-1').innerText()).toBe(opening);
    expect(await page.getByLabel('Run', { exact: true }).inputValue()).toBe('class');
  });

  it('a cross that the paths show is taken over with one press, and is kept', async () => {
    await turnTo('Crosses');
    await tabTo(page.getByRole('button', { name: /^11\s*rear cross/ }));
    await page.keyboard.press('Enter');
    await expect.poll(() => shown('gap-11').innerText()).toMatch(/ behind the dog when the handler crossed$/);
    await tabTo(page.getByRole('button', { name: 'Remove this cross' }));
    await page.keyboard.press('Enter');
    await expect.poll(() => host.review(id)?.crosses.map((c) => c.place)).toEqual([3, 15]);
    await tabTo(page.getByRole('button', { name: 'Take over the rear cross at 11' }));
    await page.keyboard.press('Enter');
    await expect
      .poll(() => host.review(id)?.crosses.find((c) => c.place === 11))
      .toMatchObject({
        kind: 'rear',
        plannedId: 'planned-11',
      });
    await again();
    await turnTo('Crosses');
    await page.getByRole('button', { name: /^11\s*rear cross/ }).waitFor();
    expect(await page.getByRole('button', { name: /^Take over/ }).count()).toBe(0);
  });

  it('what to work on bows to the coach’s word, which is kept', async () => {
    const evening = 'demo-first-evening';
    await page.goto(`${new URL(page.url()).origin}/#/review/${evening}`);
    await page.getByRole('heading', { name: /^First evening/ }).waitFor();
    await page.keyboard.press('F6');
    const part = page
      .getByRole('listitem')
      .filter({ has: page.getByRole('button', { name: /^Not for now/ }) });
    const headings = (): Promise<string[]> => part.getByRole('heading').allInnerTexts();
    // The demo broke the stay in try 1, came wrong into the poles and was late at 3; two things are enough for a day.
    await expect.poll(headings).toEqual(['Waiting at the start try 1', 'The weave poles at 7']);
    await tabTo(page.getByRole('button', { name: 'Not for now: Waiting at the start' }));
    await page.keyboard.press('Enter');
    const after = ['The weave poles at 7', 'Showing the cross sooner at 3'];
    await expect.poll(headings).toEqual(after);
    await expect.poll(() => host.review(evening)?.header.work?.notNow).toEqual(['stay']);
    await page.reload();
    await expect.poll(headings).toEqual(after);
  });
});
