import type { Page } from 'playwright';
import { mostObstacles } from '../../src/course/course.ts';
import { readDocument } from '../../src/review/readDocument.ts';
import { windowStand } from '../e2e/libraryWindow.ts';
import { memoryHost } from '../unit/app-window/memoryHost.ts';
import { besideRules } from './course/besideRules.ts';
import { costOf, countFrames, courseOf, drag, fine, firstPiece, type FrameCost } from './course/dragging.ts';
import { atMost, median, ms, p95 } from './frames/measure.ts';
import type { BenchLine } from './run.ts';

/**
 * Frames in which nothing happens but that one element of 20 px moves over the board: the least that an animation can
 * be. Where it is `seen`, the screen is put together anew as for anything that moves; where it is empty, not even that.
 */
const shift = (page: Page, frames: number, seen: boolean): Promise<void> =>
  page.evaluate(
    ([count, colour]) => {
      const sheet = document.createElement('div');
      sheet.style.cssText = 'position:fixed;left:0;top:0;width:20px;height:20px;will-change:transform';
      sheet.style.background = colour;
      document.body.append(sheet);
      return new Promise<void>((done) => {
        let n = 0;
        const step = (): void => {
          n += 1;
          sheet.style.transform = `translate(${800 + 40 * Math.sin(n / 9)}px, 400px)`;
          if (n < count) requestAnimationFrame(step);
          else {
            sheet.remove();
            done();
          }
        };
        requestAnimationFrame(step);
      });
    },
    [frames, seen ? '#1f4d3a' : 'transparent'] as const,
  );

/** Frames in which nothing is shown that is new. */
const rest = (page: Page, frames: number): Promise<void> =>
  page.evaluate(
    (count) =>
      new Promise<void>((done) => {
        let n = 0;
        const step = (): void => void (++n < count ? requestAnimationFrame(step) : done());
        requestAnimationFrame(step);
      }),
    frames,
  );

/** Milliseconds of each turn of the wheel over the board until its frame is painted. */
const zooms = (page: Page, turns: number): Promise<number[]> =>
  page.evaluate(async (count) => {
    const box = document.querySelector('[role="application"]');
    if (!box) throw new Error('there is no board');
    const { left, top, width, height } = box.getBoundingClientRect();
    const times: number[] = [];
    for (let i = 0; i < count; i++) {
      await new Promise(requestAnimationFrame);
      const began = performance.now();
      box.dispatchEvent(
        new WheelEvent('wheel', {
          deltaY: i % 20 < 10 ? -60 : 60,
          clientX: left + width / 2,
          clientY: top + height / 3,
          cancelable: true,
        }),
      );
      await new Promise<void>((done) => {
        requestAnimationFrame(() => {
          // Behind the painting, which was asked for before this.
          setTimeout(done);
        });
      });
      times.push(performance.now() - began);
    }
    return times;
  }, turns);

/** Milliseconds of each push of the sheet, held by the second button, until its frame is painted. */
const pushes = (page: Page, moves: number): Promise<number[]> =>
  page.evaluate(async (count) => {
    const box = document.querySelector('[role="application"]');
    if (!box) throw new Error('there is no board');
    const { left, top, width, height } = box.getBoundingClientRect();
    Element.prototype.setPointerCapture = () => undefined;
    const send = (kind: string, at: number): void => {
      box.dispatchEvent(
        new PointerEvent(kind, {
          bubbles: true,
          cancelable: true,
          pointerId: 1,
          isPrimary: true,
          button: kind === 'pointermove' ? -1 : 2,
          buttons: 2,
          clientX: left + width / 2 + 120 * Math.sin(at / 9),
          clientY: top + height / 2 + 80 * Math.sin(at / 7),
        }),
      );
    };
    const times: number[] = [];
    send('pointerdown', 0);
    for (let i = 1; i <= count; i++) {
      await new Promise(requestAnimationFrame);
      const began = performance.now();
      send('pointermove', i);
      await new Promise<void>((done) => {
        requestAnimationFrame(() => {
          setTimeout(done);
        });
      });
      times.push(performance.now() - began);
    }
    send('pointerup', count);
    return times;
  }, moves);

/** The same wait with nothing done: the machine's own frame. */
const emptyFrames = (page: Page, turns: number): Promise<number[]> =>
  page.evaluate(async (count) => {
    const times: number[] = [];
    for (let i = 0; i < count; i++) {
      await new Promise(requestAnimationFrame);
      const began = performance.now();
      await new Promise<void>((done) => {
        requestAnimationFrame(() => {
          setTimeout(done);
        });
      });
      times.push(performance.now() - began);
    }
    return times;
  }, turns);

/** The drawing board against the machine's own empty animation frame, in one page each. */
export async function bench(): Promise<BenchLine[]> {
  const lines: BenchLine[] = [];
  const stand = await windowStand();
  try {
    const host = memoryHost();
    for (const count of [60, 600])
      host.addReview({ id: `r${count}`, title: 'Bench', course: courseOf(count) });

    const page = await stand.open(host, '#/course/r60');
    const session = await page.context().newCDPSession(page);
    const whole = await stand.browser.newBrowserCDPSession();
    await session.send('Performance.enable');
    await countFrames(page);
    const [x, y] = await firstPiece(page, courseOf(60));
    await drag(page, 60, x, y);
    await page.keyboard.press('z');
    const rounds = {
      bare: [] as FrameCost[],
      empty: [] as FrameCost[],
      idle: [] as FrameCost[],
      drag: [] as FrameCost[],
    };
    for (let i = 0; i < 5; i++) {
      rounds.bare.push(await costOf(session, whole, page, () => rest(page, 120)));
      rounds.empty.push(await costOf(session, whole, page, () => shift(page, 120, false)));
      rounds.idle.push(await costOf(session, whole, page, () => shift(page, 120, true)));
      rounds.drag.push(await costOf(session, whole, page, () => drag(page, 120, x, y)));
      await page.keyboard.press('z');
      await page.waitForTimeout(100);
    }
    const acts = host.asked.filter((a) => a.name === 'review.apply').length;
    const of = (what: keyof FrameCost) =>
      [rounds.bare, rounds.empty, rounds.idle, rounds.drag].map((all) =>
        median(all.map((cost) => cost[what])),
      );
    lines.push({
      figure: 'drags that were really done in a course of 60',
      asked: '6',
      measured: String(acts),
      holds: acts === 6,
    });
    const [bare = NaN, empty = NaN, idle = NaN, dragged = NaN] = of('all');
    const [, , idleMain = NaN, draggedMain = NaN] = of('main');
    lines.push(
      atMost(
        'dragging in a course of 60: CPU of the whole browser, over a frame that moves one small element',
        dragged / idle,
        2,
        `${fine(dragged)} a frame, against ${fine(idle)}; ${fine(empty)} where the element is empty, ${fine(bare)} where nothing moves; the main thread was busy ${fine(draggedMain)} against ${fine(idleMain)}`,
      ),
    );
    await page.context().close();

    lines.push(...(await besideRules(stand)));

    const large = await stand.open(host, '#/course/r600');
    const none = await emptyFrames(large, 60);
    const turns = await zooms(large, 60);
    lines.push(
      atMost(
        'zoom of 600 obstacles to the painted frame, p95, over an empty frame',
        p95(turns) / p95(none),
        3,
        `${ms(p95(turns))}, empty ${ms(p95(none))}`,
      ),
    );
    const before = await large.getByRole('application').screenshot();
    const pushed = await pushes(large, 60);
    const moved = !before.equals(await large.getByRole('application').screenshot());
    const pan = p95(pushed) / p95(none);
    lines.push({
      ...atMost(
        'pan of 600 obstacles to the painted frame, p95, over an empty frame',
        pan,
        3,
        `${ms(p95(pushed))}, empty ${ms(p95(none))}${moved ? '' : '; the sheet did not move'}`,
      ),
      holds: moved && pan <= 3,
    });
    await large.context().close();
  } finally {
    await stand.close();
  }
  lines.push(refusal());
  return lines;
}

/** A file of ten thousand obstacles is refused with a sentence, and quickly. */
function refusal(): BenchLine {
  const obstacles = Array.from({ length: 10_000 }, (_, i) => ({ id: `o${i}`, kind: 'barJump' }));
  const file = {
    format: 'walkback.review',
    version: 4,
    id: 'x',
    header: { title: 'x' },
    course: { obstacles },
  };
  const reading = readDocument(JSON.stringify(file));
  const said = reading.ok ? 'it was read' : (reading.problems[0] ?? '');
  return {
    figure: 'a file of 10,000 obstacles',
    asked: 'refused, and says why',
    measured: said,
    holds: !reading.ok && said.includes(`${mostObstacles} obstacles at the most`),
  };
}
