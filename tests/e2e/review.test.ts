import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  buildWindow,
  commandLine,
  openWindow,
  startShell,
  takeInHand,
  type ReviewHands,
  type RunningShell,
} from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

const demo = resolve(import.meta.dirname, '../../fixtures/demo');
const title = 'Mark it yourself';

const Moment = z.object({ at: z.number(), pts: z.number() });
const Truth = z.object({
  frames: z.object({ pts: z.array(z.number()) }),
  start: z.object({ tries: z.array(z.object({ setUp: Moment, step: Moment, release: Moment })) }),
  taken: z.array(z.object({ place: z.number(), in: Moment, out: Moment })),
  crosses: z.array(
    z.object({
      place: z.number(),
      cues: z.array(z.object({ kind: z.string(), begin: Moment, end: Moment })),
    }),
  ),
});

let browser: Browser;
let truth: z.infer<typeof Truth>;

const frameOf = (moment: { readonly pts: number }): number => {
  const frame = truth.frames.pts.indexOf(moment.pts);
  if (frame < 0) throw new Error(`no frame of the film starts at ${moment.pts}`);
  return frame;
};

beforeAll(async () => {
  await buildWindow();
  truth = Truth.parse(JSON.parse(await readFile(join(demo, 'run-b.truth.json'), 'utf8')));
  browser = await startChromium();
});

afterAll(() => browser.close());

async function openReview(page: Page): Promise<ReviewHands> {
  await page.getByText(title).first().click({ timeout: 120_000 });
  return takeInHand(page);
}

/** Everything the panel says, page by page, with no mark chosen. */
async function allOf(hands: ReviewHands): Promise<Record<string, string>> {
  await hands.press('Escape', 'Escape');
  const pages: Record<string, string> = {};
  for (const tab of ['Marks', 'Crosses', 'Start line', 'Splits']) pages[tab] = await hands.read(tab);
  return pages;
}

/** "12.34 ± 0.05" as an interval. */
function interval(text: string): { readonly from: number; readonly to: number } {
  const match = /(−?)(\d+(?:\.\d+)?)(?: s)? ± (\d+(?:\.\d+)?)/.exec(text);
  if (!match) throw new Error(`no figure in “${text}”`);
  const value = Number(match[2]) * (match[1] === '' ? 1 : -1);
  return { from: value - Number(match[3]), to: value + Number(match[3]) };
}

describe('a whole run, marked by keyboard alone', () => {
  let shell: RunningShell;
  beforeAll(async () => {
    shell = await startShell('--demo');
  });
  afterAll(() => shell.stop());

  it('takes at most three presses an obstacle, is there after a reload, and holds the truth', async () => {
    const { page, errors } = await openWindow(browser, shell);
    const hands = await openReview(page);
    const { press } = hands;
    const picture = await page.getByRole('region', { name: 'Footage' }).boundingBox();
    expect((picture?.width ?? 0) * Math.min(picture?.height ?? 0, 540)).toBeGreaterThanOrEqual(
      (1280 * 800) / 2,
    );

    // The start line, before the run: three moments and the way in and out.
    const [attempt] = truth.start.tries;
    if (!attempt) throw new Error('the film has no start');
    await press('s', 's');
    await hands.stepTo(frameOf(attempt.release));
    await press('r');
    await hands.stepTo(frameOf(attempt.step));
    await press('p', 'Escape');

    // The run at real speed: two keys an obstacle, and one to play and one to stop.
    const before = hands.presses();
    await press('Space');
    for (const taken of truth.taken) {
      await hands.playedTo(frameOf(taken.in));
      await press('d');
      await hands.playedTo(frameOf(taken.out));
      await press('f');
    }
    await press('Space');
    const each = (hands.presses() - before) / truth.taken.length;
    console.log(
      `obstacles: ${hands.presses() - before} presses for ${truth.taken.length}, ${each.toFixed(2)} each`,
    );
    expect(each).toBeLessThanOrEqual(3);

    // Five events, each at its obstacle: a number to go there, a letter for the list, a letter for the kind.
    for (const [place, keys] of [
      ['3', ['w']],
      ['7', ['m']],
      ['9', ['b']],
      ['12', ['r', 'r']],
      ['19', ['h']],
    ] as const) {
      await press(...place, 'Enter', 'e', ...keys);
    }

    // One cross, to the frame.
    const cross = truth.crosses.find((c) => c.place === 3);
    const cues = Object.fromEntries(cross?.cues.map((c) => [c.kind, c]) ?? []);
    const feet = cues['feet'];
    if (!feet) throw new Error('the film has no cue by feet at 3');
    await press('3', 'Enter', 'c');
    await hands.stepTo(frameOf(feet.begin));
    await press('f');
    await hands.stepTo(frameOf(feet.end));
    await press('e', 'Escape');

    // Two obstacles put right to the frame, by going there, stepping and moving.
    for (const place of [3, 4]) {
      const taken = truth.taken.find((t) => t.place === place);
      if (!taken) throw new Error(`the film has no ${place}`);
      await press(String(place), 'Enter');
      await hands.stepTo(frameOf(taken.in));
      await press('m');
      // Moments of the cross and events may lie between the two edges.
      do await press('ArrowDown');
      while (!(await selectedMark(page)).startsWith(`Landing, ${place}`));
      await hands.stepTo(frameOf(taken.out));
      await press('m');
    }
    console.log(`whole run with events, cross and start line: ${hands.presses()} presses`);

    await hands.kept();
    const marked = await allOf(hands);
    await hands.read('Marks');
    const numbers = await page.getByRole('tabpanel').getByRole('rowheader').allInnerTexts();
    expect(numbers).toEqual(truth.taken.map((t) => String(t.place)));
    expect(marked['Marks']).not.toMatch(/no (landing|exit|last paw off)/);
    await hands.read('Splits');
    for (const word of ['Wide', 'Missed entry', 'Bar down', 'Refusal: run-out', 'Happy sign']) {
      expect(marked['Marks']).toContain(word);
    }
    expect(marked['Start line']).toContain('before the release');
    expect(marked['Crosses']).toContain('front cross');

    // The split between two landings that were marked to the frame holds the simulator's true time.
    const split = await page.locator('[data-figure="split-4"]').innerText();
    const [three, four] = [3, 4].map((n) => truth.taken.find((t) => t.place === n)?.out.at ?? NaN);
    const range = interval(split);
    expect(range.from).toBeLessThanOrEqual((four ?? NaN) - (three ?? NaN));
    expect(range.to).toBeGreaterThanOrEqual((four ?? NaN) - (three ?? NaN));

    await page.reload();
    const again = await takeInHand(page);
    expect(await allOf(again)).toEqual(marked);

    // The report, written and opened by key, reads the same figures.
    await again.read('Splits');
    const figures = (await page.locator('[data-figure^="split-"]').allInnerTexts()).map(bare);
    expect(figures).toHaveLength(truth.taken.length);
    await page.keyboard.press('F6');
    await page.getByRole('heading', { name: 'Report', exact: true }).waitFor();
    await page.keyboard.press('w');
    await page.getByRole('button', { name: /^Open/ }).waitFor({ timeout: 120_000 });
    const opened = page.context().waitForEvent('page');
    await page.keyboard.press('o');
    const report = await opened;
    await report.waitForLoadState();
    const told = await report.locator('table [data-figure^="splits"]').allInnerTexts();
    expect(told.map(bare)).toEqual(figures);
    const lead = /[+−]?[\d.]+ s ± [\d.]+/.exec(marked['Crosses'] ?? '')?.[0];
    expect(await report.locator('body').innerText()).toContain(lead?.replace('+', ''));
    expect(errors).toEqual([]);
    await page.context().close();
  }, 400_000);
});

/** A figure without its unit and signs of layout: the screen leaves the unit to the head of the table. */
function bare(figure: string): string {
  return figure.replace(' s', '').replace(/\s+/g, ' ').trim();
}

/** The name of the chosen mark on the Marks page. */
async function selectedMark(page: Page): Promise<string> {
  await page.getByRole('tab', { name: 'Marks' }).click();
  return page.getByRole('region', { name: 'The chosen mark' }).innerText();
}

describe('undo', () => {
  let library: string;
  beforeAll(async () => {
    library = await mkdtemp(join(tmpdir(), 'walkback-undo-'));
    await commandLine('import', join(demo, 'mark-it-yourself.walkback.json'), '--library', library);
  });
  afterAll(() => rm(library, { recursive: true, force: true, maxRetries: 3 }));

  it('and redo go on where they were after the program was started anew', async () => {
    const first = await startShell('--library', library);
    const one = await openWindow(browser, first);
    const before = await openReview(one.page);
    await before.stepTo(20);
    await before.press('d', '.', 'f', '.', 'd');
    await before.press('e', 'n');
    await one.page.keyboard.type('lovely distance');
    await before.press('Enter');
    await before.kept();
    await before.press('z');
    await before.kept();
    expect(await before.undoes()).toContain('note');
    await before.press('Escape');
    const left = await before.read('Marks');
    expect(left).not.toContain('lovely distance');
    await one.page.context().close();
    await first.stop();

    const second = await startShell('--library', library);
    try {
      const { page, errors } = await openWindow(browser, second);
      const hands = await openReview(page);
      expect(await hands.read('Marks')).toEqual(left);
      await hands.press('y');
      await page.getByText('lovely distance').first().waitFor();
      for (let i = 0; i < 5; i++) await hands.press('z');
      await page.getByText('Nothing to undo').waitFor();
      expect(await hands.read('Marks')).toContain('Watch the run once');
      for (let i = 0; i < 5; i++) await hands.press('y');
      await page.getByText('lovely distance').first().waitFor();
      expect(errors).toEqual([]);
      await page.context().close();
    } finally {
      await second.stop();
    }
  }, 240_000);
});

describe('the mouse', () => {
  let shell: RunningShell;
  beforeAll(async () => {
    shell = await startShell('--demo');
  });
  afterAll(() => shell.stop());

  it('touches a post, drags along the line, draws on the still and makes the line larger', async () => {
    const { page, errors } = await openWindow(browser, shell);
    await page.getByText('First evening').first().click({ timeout: 120_000 });
    const hands = await takeInHand(page);
    const line = page.getByRole('slider', { name: 'Line of time' });
    const box = await line.boundingBox();
    if (!box) throw new Error('there is no line of time');

    await page.mouse.move(box.x + box.width * 0.3, box.y + 50);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.5, box.y + 50, { steps: 6 });
    await page.mouse.up();
    const frames = Number(await line.getAttribute('aria-valuemax'));
    expect((await hands.frame()) / frames).toBeCloseTo(0.5, 1);

    await page.getByRole('tab', { name: 'Map' }).click();
    await page.getByRole('button', { name: /^7, / }).click();
    const seven = await hands.frame();
    await page.getByRole('tab', { name: 'Marks' }).click();
    expect(await page.getByRole('region', { name: 'The chosen mark' }).innerText()).toContain('Entry, 7');
    await page.getByRole('button', { name: /^9, take-off/ }).click();
    expect(await hands.frame()).toBeGreaterThan(seven);

    await hands.press('p');
    const footage = await page.getByRole('region', { name: 'Footage' }).boundingBox();
    if (!footage) throw new Error('there is no picture');
    await page.mouse.move(footage.x + 300, footage.y + 200);
    await page.mouse.down();
    await page.mouse.move(footage.x + 420, footage.y + 260, { steps: 8 });
    await page.mouse.up();
    await page.getByRole('img', { name: 'Drawing on this still' }).waitFor();
    await expect.poll(() => hands.undoes()).toContain('pen stroke');
    await hands.press('ArrowRight');
    await page.getByRole('img', { name: 'Drawing on this still' }).waitFor({ state: 'detached' });
    await hands.press('ArrowLeft');
    await page.getByRole('img', { name: 'Drawing on this still' }).waitFor();
    await hands.press('Escape', 'z');
    await page.getByRole('img', { name: 'Drawing on this still' }).waitFor({ state: 'detached' });
    expect(errors).toEqual([]);
    await page.context().close();
  }, 240_000);
});
