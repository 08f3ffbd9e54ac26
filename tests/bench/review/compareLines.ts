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
      one.push(await opened(page, '#/review/demo-first-evening', 'div[data-shown="true"]', 1));
      two.push(
        await opened(page, '#/compare/demo-first-evening/demo-a-month-later', 'canvas[data-shown="true"]', 2),
      );
    }
    // The first round also fetches what both need.
    const [a, b] = [median(one.slice(1)), median(two.slice(1))];
    return atMost(
      'opening two runs side by side over opening one review, neither kept open before',
      b / a,
      1.5,
      `${ms(b)} over ${ms(a)}`,
    );
  } finally {
    await browser.close();
    await shell.stop();
  }
}

/** A review of neither run: once it is open, the window keeps nothing of the two that are opened next. */
const another = { hash: '#/review/demo-course-to-plan', shown: 'This review has no footage yet.' };

/**
 * Milliseconds from the Library to where so many pictures are painted. Another review was open before, so that one
 * review and two runs are both asked of the host afresh; frame times of their clips are known from the first round on.
 */
async function opened(page: Page, hash: string, selector: string, count: number): Promise<number> {
  await page.evaluate((to) => (location.hash = to), another.hash);
  await page.getByText(another.shown).first().waitFor();
  await page.evaluate(() => (location.hash = '#/library'));
  await page.getByRole('link', { name: /A month later/ }).waitFor();
  await page.waitForTimeout(300);
  return page.evaluate(
    async ([to, what, n]) => {
      const began = performance.now();
      location.hash = to;
      while (document.querySelectorAll(what).length < n) await new Promise(requestAnimationFrame);
      await new Promise(requestAnimationFrame);
      return performance.now() - began;
    },
    [hash, selector, count] as const,
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
