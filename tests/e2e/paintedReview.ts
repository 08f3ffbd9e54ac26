import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContextOptions, Page } from 'playwright';
import { clip, type ClipKind } from '../../scripts/clips/make.ts';
import { readPaintedNumber } from '../../scripts/clips/painted.ts';
import { indexFrames } from '../../src/footage/frameIndex.ts';
import type { ClipClock } from '../../src/time/bracket.ts';
import { startShell, takeInHand, type ReviewHands } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

/** The real window with a review of one clip whose every picture carries its own number. */
export interface PaintedReview {
  readonly page: Page;
  readonly hands: ReviewHands;
  readonly clock: ClipClock;
  readonly errors: string[];
  /** The number on the still picture; null where it shows none. */
  still(): Promise<number | null>;
  /** Where the picture lies on the screen, as enlarged. */
  place(): Promise<{
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  }>;
  close(): Promise<void>;
}

/** What is done before the review is taken in hand: a script that runs before the page's own, and an act in its review. */
interface Before {
  readonly script?: string;
  readonly inReview?: (page: Page) => Promise<void>;
}

/** Brings a clip of a kind into an empty library and opens its review. */
export async function paintedReview(
  kind: ClipKind,
  options: BrowserContextOptions = {},
  { script, inReview }: Before = {},
): Promise<PaintedReview> {
  const made = await clip(kind);
  const { table } = await indexFrames(made.path);
  const folder = await mkdtemp(join(tmpdir(), 'walkback-painted-'));
  const browser = await startChromium();
  const shell = await startShell('--library', join(folder, 'library'));
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  if (script !== undefined) await context.addInitScript(script);
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  await page.goto(shell.address);
  const bringIn = page.getByRole('button', { name: 'Bring in a video' });
  await bringIn.waitFor();
  const chooser = page.waitForEvent('filechooser');
  await bringIn.click();
  await (await chooser).setFiles(made.path);
  await page.getByLabel(/obstacles/i).fill('4');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => location.hash.startsWith('#/review/'));
  await inReview?.(page);
  const hands = await takeInHand(page);

  const numberOn = async (selector: string): Promise<number | null> => {
    const { data } = await pixelsOf(page, selector, 160, 120);
    return data.length === 0 ? null : readPaintedNumber(data, 160, 120);
  };

  return {
    page,
    hands,
    clock: { table, speed: [], offset: 0, rate: 1 },
    errors,
    still: () => numberOn('[data-shown] > canvas'),
    place: () =>
      page.locator('[data-shown] > canvas').evaluate((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return { x, y, width, height };
      }),
    async close() {
      await browser.close();
      await shell.stop();
      await rm(folder, { recursive: true, force: true, maxRetries: 3 });
    },
  };
}

/** The pixels of a canvas or a player, four bytes each, scaled to a size or as they are. */
export async function pixelsOf(
  page: Page,
  selector: string,
  width = 0,
  height = 0,
): Promise<{ readonly data: Uint8Array; readonly width: number; readonly height: number }> {
  const read = await page
    .locator(selector)
    .first()
    .evaluate(
      (element, [w, h]) => {
        if (!(element instanceof HTMLCanvasElement || element instanceof HTMLVideoElement)) return null;
        const width = w || element.width;
        const height = h || element.height;
        const paper = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
        if (!paper) return null;
        paper.drawImage(element, 0, 0, width, height);
        const { data } = paper.getImageData(0, 0, width, height);
        let text = '';
        for (let i = 0; i < data.length; i += 8192) {
          text += String.fromCharCode(...data.subarray(i, i + 8192));
        }
        return { width, height, bytes: btoa(text) };
      },
      [width, height] as const,
    );
  if (!read) throw new Error(`${selector} shows no picture`);
  return { ...read, data: Buffer.from(read.bytes, 'base64') };
}

/** What was to be seen while a run came to rest. */
export interface SeenPictures {
  /** The last picture that the player had on screen while it was the one to be seen. */
  readonly played: number;
  /** The stills that were to be seen after it, each once. */
  readonly stills: readonly number[];
}

/**
 * Notes the number of the picture to be seen each time that the screen is drawn. Asked afterwards, a player under a
 * still tells nothing: it is made ready for the still's frame.
 * @returns ends the watch and tells
 */
export async function watchPictures(page: Page): Promise<() => Promise<SeenPictures>> {
  const watch = await page.evaluateHandle(() => {
    const paper = new OffscreenCanvas(160, 120).getContext('2d', { willReadFrequently: true });
    const seen: { still: boolean; number: number }[] = [];
    const state = { on: true, seen };
    const look = (): void => {
      if (!state.on || !paper) return;
      const still = document.querySelector<HTMLCanvasElement>('[data-shown] > canvas');
      const video = document.querySelector<HTMLVideoElement>('[data-shown] video');
      const isStill = still !== null && getComputedStyle(still).visibility === 'visible';
      const source = isStill ? still : video;
      if (source) {
        paper.drawImage(source, 0, 0, 160, 120);
        // Twelve blocks of a sixteenth; the row below is their complement (scripts/clips/painted.ts).
        const at = (bit: number, row: number): number =>
          paper.getImageData(25 + bit * 10, row, 1, 1).data[1] ?? 0;
        let number = 0;
        for (let bit = 0; bit < 12; bit++) number = number * 2 + (at(bit, 19) > at(bit, 41) ? 1 : 0);
        const last = seen.at(-1);
        if (last?.still !== isStill || last.number !== number) seen.push({ still: isStill, number });
      }
      requestAnimationFrame(look);
    };
    look();
    return state;
  });
  return async () => {
    const seen = await watch.evaluate((state) => {
      state.on = false;
      return state.seen;
    });
    const turn = seen.findLastIndex(({ still }) => !still);
    const played = seen[turn];
    if (!played) throw new Error('the player was never to be seen');
    return { played: played.number, stills: seen.slice(turn + 1).map(({ number }) => number) };
  };
}
