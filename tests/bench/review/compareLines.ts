import type { Page } from 'playwright';
import { paintedCompare, type Pair } from '../../e2e/paintedCompare.ts';
import { buildWindow, openWindow, startShell } from '../../e2e/reviewShell.ts';
import { startChromium } from '../../e2e/shell/chromium.ts';
import { atMost, median, ms } from '../frames/measure.ts';
import type { BenchLine } from '../run.ts';

/** Rounds of opening one and opening the other, turn by turn, so that both see the same load. */
const rounds = 9;

/** Opening two runs side by side over opening one review, and how far the lock ever lets go. */
export async function compareLines(): Promise<BenchLine[]> {
  await buildWindow();
  return [await opening(), ...(await locked())];
}

async function opening(): Promise<BenchLine> {
  const browser = await startChromium();
  const shell = await startShell('--demo');
  try {
    const { page } = await openWindow(browser, shell);
    await page.getByRole('link', { name: /A month later/ }).waitFor({ timeout: 120_000 });
    const [one, two]: [number[], number[]] = [[], []];
    for (let i = 0; i < rounds; i++) {
      one.push(await opened(page, review));
      two.push(await opened(page, compare));
    }
    // The first round also fetches what both need.
    const [a, b] = [median(one.slice(1)), median(two.slice(1))];
    return atMost(
      'opening two runs of 19 obstacles side by side over opening one review: pictures and figures there, neither kept open before',
      b / a,
      1.5,
      `${ms(b)} over ${ms(a)}`,
    );
  } finally {
    await browser.close();
    await shell.stop();
  }
}

interface Opening {
  /** Where a coach comes from, and what stands there. */
  readonly from: string;
  readonly there: string;
  readonly hash: string;
  readonly pictures: readonly [selector: string, count: number];
  readonly figures: readonly [selector: string, count: number];
}

const review: Opening = {
  from: '#/library',
  there: 'a[href$="demo-a-month-later"]',
  hash: '#/review/demo-first-evening',
  pictures: ['div[data-shown="true"]', 1],
  figures: ['aside tbody tr', 19],
};
const compare: Opening = {
  from: '#/compare',
  there: 'input[type="checkbox"]',
  hash: '#/compare/demo-first-evening/demo-a-month-later',
  pictures: ['canvas[data-shown="true"]', 2],
  figures: ['tbody tr', 19],
};

/** A review of neither run: once it is open, the window keeps nothing of the two that are opened next. */
const another = { hash: '#/review/demo-course-to-plan', shown: 'This review has no footage yet.' };

/**
 * Milliseconds from the choice (the Library's list, the list of runs to compare) to where the pictures are painted and
 * the figures are there. Another review was open before, so that one review and two runs are both asked of the host
 * afresh; frame times of their clips are known from the first round on.
 */
async function opened(page: Page, { from, there, hash, pictures, figures }: Opening): Promise<number> {
  await page.evaluate((to) => (location.hash = to), another.hash);
  await page.getByText(another.shown).first().waitFor();
  await page.evaluate((to) => (location.hash = to), from);
  await page.locator(there).first().waitFor();
  // Nobody chooses sooner.
  await page.waitForTimeout(500);
  return page.evaluate(
    async ([to, ...wanted]) => {
      const began = performance.now();
      location.hash = to;
      while (wanted.some(([what, n]) => document.querySelectorAll(what).length < n)) {
        if (performance.now() - began > 30_000) throw new Error(`${to}: not there after half a minute`);
        await new Promise(requestAnimationFrame);
      }
      await new Promise(requestAnimationFrame);
      return performance.now() - began;
    },
    [hash, pictures, figures] as const,
  );
}

async function locked(): Promise<BenchLine[]> {
  const stand = await paintedCompare();
  const { page } = stand;
  const off = ([a, b]: Pair): number =>
    a === null || b === null ? Infinity : Math.abs(b - stand.samePlace(a));
  try {
    const played: Pair[] = [];
    // At real time and at every slower speed, from the beginning to the end.
    for (const slower of [0, 1, 1]) {
      await page.keyboard.press('Home');
      for (let i = 0; i < slower; i++) await page.keyboard.press('[');
      await page.keyboard.press('Space');
      played.push(...(await stand.pairs(400)));
      const stop = page.getByRole('button', { name: 'Stop' });
      if (await stop.isVisible()) await page.keyboard.press('Space');
    }
    const stepped: Pair[] = [];
    await page.keyboard.press('Home');
    for (let i = 0; i < 150; i++) {
      await page.keyboard.press('ArrowRight');
      stepped.push(await stand.pair());
    }
    const scrubbed: Pair[] = [];
    const line = await page.getByRole('slider', { name: 'Gap along the course' }).boundingBox();
    if (!line) throw new Error('there is no line');
    await page.mouse.move(line.x + line.width * 0.1, line.y + 40);
    await page.mouse.down();
    for (let i = 0; i < 150; i++) {
      const share = 0.1 + 0.8 * Math.abs(((i * 7) % 100) / 50 - 1);
      await page.mouse.move(line.x + line.width * share, line.y + 40);
      scrubbed.push(await stand.pair());
    }
    await page.mouse.up();
    return [
      lockLine('started', played, off),
      lockLine('stepped', stepped, off),
      lockLine('scrubbed', scrubbed, off),
    ];
  } finally {
    await stand.close();
  }
}

function lockLine(how: string, pairs: readonly Pair[], off: (pair: Pair) => number): BenchLine {
  const different = new Map(pairs.map((p) => [p.join(), p]));
  const most = Math.max(...[...different.values()].map(off));
  return {
    figure: `frames by which two locked films miss each other, ${how}, at most`,
    asked: 'at most 1, over at least 40 pictures',
    measured: `${most} (${different.size} pictures, ${pairs.length} looks)`,
    holds: most <= 1 && different.size >= 40,
  };
}
