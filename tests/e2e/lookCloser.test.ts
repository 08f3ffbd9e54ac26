import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPaintedNumber } from '../../scripts/clips/painted.ts';
import { clipSpan } from '../../src/review/cells.ts';
import { zoomed, type Span } from '../../app/window/review/line/scale.ts';
import { stripCells, type StripCell } from '../../app/window/review/line/stripCells.ts';
import { paintedReview, pixelsOf, watchPictures, type PaintedReview } from './paintedReview.ts';
import { buildWindow } from './reviewShell.ts';

/** Looking closer in the real window, over a clip whose pictures carry their own numbers. */
let r: PaintedReview;
beforeAll(async () => {
  await buildWindow();
  r = await paintedReview('h264', { deviceScaleFactor: 2 });
});
afterAll(() => r.close());

const shape = 360 / 640;
const until = async (done: () => Promise<boolean>, what: string): Promise<void> => {
  for (let i = 0; i < 300; i++) {
    if (await done()) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`waited in vain: ${what}`);
};

interface Strip {
  readonly width: number;
  readonly height: number;
  /** The number that each cell shows; null where there is no picture yet. */
  numbers(cells: readonly StripCell[]): (number | null)[];
}

async function strip(page: Page): Promise<Strip> {
  const { data, width: w, height: h } = await pixelsOf(page, 'canvas[data-strip]');
  const { width, height } = await page.locator('canvas[data-strip]').evaluate((element) => ({
    width: element.clientWidth,
    height: element.clientHeight,
  }));
  const scale = w / width;
  const wide = Math.round((height / shape) * scale);
  return {
    width,
    height,
    numbers: (cells) =>
      cells.map(({ left }) => {
        const x0 = Math.round(left * scale);
        const part = new Uint8ClampedArray(wide * h * 4);
        for (let y = 0; y < h; y++) {
          for (let i = 0; i < wide * 4; i++) part[y * wide * 4 + i] = data[(y * w + x0) * 4 + i] ?? 0;
        }
        return readPaintedNumber(part, wide, h);
      }),
  };
}

/** Cells of the strip for a view, those of them that are wholly in sight. */
async function cellsOf(view: Span): Promise<StripCell[]> {
  const { width, height } = await strip(r.page);
  const wide = Math.max(24, Math.round(height / shape));
  return stripCells(r.clock, view, width, wide).filter((c) => c.left >= 0 && c.left + wide <= width - 1);
}

async function showsRightFrames(view: Span): Promise<number> {
  const cells = await cellsOf(view);
  await until(
    async () => (await strip(r.page)).numbers(cells).every((n) => n !== null),
    'every cell of the strip has its picture',
  );
  expect((await strip(r.page)).numbers(cells)).toEqual(cells.map((c) => c.frame));
  return cells.length;
}

describe('the strip of small frames', () => {
  it('serves a step at once while it fills, and shows the right frame everywhere', async () => {
    const { hands } = r;
    await hands.stepTo(100);
    await hands.press("'");
    for (let i = 1; i <= 12; i++) {
      await hands.press('ArrowRight');
      await until(async () => (await r.still()) === 100 + i, `frame ${100 + i}`);
    }
    for (let i = 11; i >= 0; i--) {
      await hands.press('ArrowLeft');
      await until(async () => (await r.still()) === 100 + i, `frame ${100 + i}`);
    }
    expect(await showsRightFrames(clipSpan(r.clock))).toBeGreaterThanOrEqual(10);
  });

  it('leaves the picture half of the window', async () => {
    const box = await r.page.getByRole('region', { name: 'Footage' }).boundingBox();
    const width = Math.min(box?.width ?? 0, (box?.height ?? 0) / shape);
    expect(width * width * shape).toBeGreaterThanOrEqual((1280 * 800) / 2);
  });

  it('is laid anew when time is enlarged, down to a cell for each frame, and a touch goes to its frame', async () => {
    const { page, hands } = r;
    const whole = clipSpan(r.clock);
    const seconds = (whole.to - whole.from) / r.clock.table.pts.length;
    const at = r.clock.table.pts[100] ?? 0;
    const now = (at * r.clock.table.timeBase.num) / r.clock.table.timeBase.den;
    let view = whole;
    for (let i = 0; i < 3; i++) {
      await hands.press('+');
      view = zoomed(view, whole, 0.5, now, seconds * 10);
    }
    await showsRightFrames(view);
    for (let i = 0; i < 3; i++) {
      await hands.press('+');
      view = zoomed(view, whole, 0.5, now, seconds * 10);
    }
    await showsRightFrames(view);
    const cells = await cellsOf(view);
    cells.slice(1).forEach((c, i) => {
      expect(c.frame).toBe((cells[i]?.frame ?? 0) + 1);
    });
    const touched = cells[Math.min(3, cells.length - 1)];
    const box = await page.locator('canvas[data-strip]').boundingBox();
    if (!touched || !box) throw new Error('no cell to touch');
    await page.mouse.click(box.x + (touched.left + touched.right) / 2, box.y + 10);
    await until(async () => (await r.still()) === touched.frame, `frame ${touched.frame}`);
    expect(await hands.frame()).toBe(touched.frame);
  });

  it('is remembered', async () => {
    await r.page.waitForTimeout(600);
    await r.page.reload();
    await r.page.locator('[data-shown="true"]').waitFor({ state: 'attached' });
    await r.page.locator('canvas[data-strip]').waitFor();
    await showsRightFrames(clipSpan(r.clock));
    await r.hands.press("'");
    expect(await r.page.locator('canvas[data-strip]').count()).toBe(0);
  });
});

describe('the magnifier', () => {
  it('keeps its place over fifty steps and a reload, and every frame under it is the right one', async () => {
    const { hands, page } = r;
    await hands.stepTo(20);
    await hands.press('PageUp', 'PageUp', 'PageUp', 'F9', 'j', 'k', 'k', 'Escape');
    const place = await r.place();
    const whole = await page.getByRole('region', { name: 'Footage' }).boundingBox();
    expect(place.width / (whole?.width ?? 1)).toBeCloseTo(3, 1);
    for (let i = 1; i <= 50; i++) {
      await hands.press('ArrowRight');
      await until(async () => (await r.still()) === 20 + i, `frame ${20 + i}`);
      expect(await r.place()).toEqual(place);
    }
    await page.waitForTimeout(600);
    await page.reload();
    await page.locator('[data-shown="true"]').waitFor({ state: 'attached' });
    await until(async () => (await r.place()).width === place.width, 'the magnifier is back');
    expect(await r.place()).toEqual(place);
  });

  it('moves with the mouse as the hand does, and a touch still plays', async () => {
    const { page } = r;
    const before = await r.place();
    const box = await page.getByRole('region', { name: 'Footage' }).boundingBox();
    if (!box) throw new Error('no picture');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 40, y + 30, { steps: 4 });
    await page.mouse.up();
    const after = await r.place();
    expect(after.x - before.x).toBeCloseTo(40, 0);
    expect(after.y - before.y).toBeCloseTo(30, 0);
    expect(await page.getByRole('button', { name: /^Play/ }).count()).toBe(1);
    await page.mouse.wheel(0, -100);
    const nearer = await r.place();
    expect(nearer.width).toBeGreaterThan(after.width);
    // The place under the pointer stays there.
    const pointer = x + 40;
    expect((pointer - nearer.x) / nearer.width).toBeCloseTo((pointer - after.x) / after.width, 3);
  });

  it('glides between two places that were set, rests outside them, and a place can be removed', async () => {
    const { hands } = r;
    const at = async (frame: number): Promise<number> => {
      await hands.stepTo(frame);
      const { x } = await r.place();
      return x;
    };
    await hands.stepTo(40);
    await hands.press('F9', 'f');
    const first = await at(40);
    await hands.stepTo(80);
    await hands.press('l', 'l', 'l');
    const last = await at(80);
    expect(last).toBeLessThan(first - 50);
    expect(await at(60)).toBeCloseTo((first + last) / 2, 0);
    expect(await at(50)).toBeCloseTo(first + (last - first) / 4, 0);
    expect(await at(20)).toBeCloseTo(first, 3);
    expect(await at(95)).toBeCloseTo(last, 3);
    await hands.press('b', 'r');
    expect(await hands.frame()).toBe(80);
    expect(await at(60)).toBeCloseTo(first, 3);
    await hands.stepTo(40);
    await hands.press('r', 'Escape');
    expect(await at(60)).toBeCloseTo(first, 3);
  });

  it('takes the drawing on the still with it', async () => {
    const { hands, page } = r;
    const box = await page.getByRole('region', { name: 'Footage' }).boundingBox();
    if (!box) throw new Error('no picture');
    const [x, y] = [box.x + box.width / 2 + 30, box.y + box.height / 2 - 20];
    await hands.press('p');
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 1, y + 1);
    await page.mouse.up();
    await hands.press('Escape');
    const near = await r.place();
    await page.getByRole('img', { name: 'Drawing on this still' }).waitFor();
    await hands.press('F9', 'v', 'Escape');
    const whole = await r.place();
    expect(whole.width).toBeLessThan(near.width / 2);
    // The canvas fits the box, the picture fits the canvas.
    const pictureAt = (p: typeof near) => {
      const width = Math.min(p.width, p.height / shape);
      return { x: p.x + (p.width - width) / 2, y: p.y + (p.height - width * shape) / 2, width };
    };
    const [a, b] = [pictureAt(near), pictureAt(whole)];
    const share = { x: (x - a.x) / a.width, y: (y - a.y) / (a.width * shape) };
    const [wx, wy] = [b.x + share.x * b.width, b.y + share.y * b.width * shape];
    const ink = await page.getByRole('img', { name: 'Drawing on this still' }).evaluate(
      (element, [px, py]) => {
        const paper = element as HTMLCanvasElement;
        const { left, top, width, height } = paper.getBoundingClientRect();
        const sx = Math.round(((px - left) / width) * paper.width);
        const sy = Math.round(((py - top) / height) * paper.height);
        const near = paper.getContext('2d')?.getImageData(sx - 3, sy - 3, 7, 7).data ?? [];
        const far = paper.getContext('2d')?.getImageData(sx - 60, sy - 60, 7, 7).data ?? [];
        return [near, far].map((d) => [...d].filter((v, i) => i % 4 === 3 && v > 0).length);
      },
      [wx, wy] as const,
    );
    expect(ink[0]).toBeGreaterThan(10);
    expect(ink[1]).toBe(0);
    await hands.press('z');
  });
});

/** The number of the frame that a layer shows: where its picture differs from the frame's, its bits do. */
async function layerNumbers(page: Page, frame: number): Promise<(readonly [number, number])[]> {
  const layers = await page.locator('[data-layers] canvas').evaluateAll((elements) =>
    elements.map((element) => {
      const canvas = element as HTMLCanvasElement;
      const { width, height } = canvas;
      const paper = canvas.getContext('2d');
      // Twelve bits in columns 2 to 13 of sixteen, the upper row three sixteenths high from the first.
      const alphas = Array.from({ length: 12 }, (_, bit) => {
        const x = Math.round(((2.5 + bit) * width) / 16);
        return paper?.getImageData(x, Math.round((2.5 * height) / 16), 1, 1).data[3] ?? 0;
      });
      return { offset: Number(canvas.dataset['offset']), alphas };
    }),
  );
  return layers.map(({ offset, alphas }) => {
    const differing = alphas.reduce((all, alpha) => all * 2 + (alpha > 30 ? 1 : 0), 0);
    return [offset, frame ^ differing] as const;
  });
}

describe('frames laid over', () => {
  it('are the right frames, on the still only, and go with one key', async () => {
    const { page, hands } = r;
    await hands.stepTo(127);
    await hands.press('F9', '3');
    await until(async () => (await layerNumbers(page, 127)).length === 6, 'six layers');
    expect([...(await layerNumbers(page, 127))].sort((a, b) => a[0] - b[0])).toEqual([
      [-3, 124],
      [-2, 125],
      [-1, 126],
      [1, 128],
      [2, 129],
      [3, 130],
    ]);
    await hands.press('1', 'ArrowRight');
    await until(async () => (await layerNumbers(page, 128)).length === 2, 'two layers');
    expect(await layerNumbers(page, 128)).toEqual([
      [-1, 127],
      [1, 129],
    ]);
    expect(await r.still()).toBe(128);
    await hands.press('Escape', 'Space');
    await r.hands.playedTo(132);
    expect(await page.locator('[data-layers] canvas').count()).toBe(0);
    await hands.press('Space');
    await until(async () => (await page.locator('[data-layers] canvas').count()) === 2, 'layers again');
    await hands.press('Escape');
    expect(await page.locator('[data-layers] canvas').count()).toBe(0);
    await hands.press('/');
    await until(async () => (await page.locator('[data-layers] canvas').count()) === 2, 'layers by one key');
    await hands.press('/');
    expect(await page.locator('[data-layers] canvas').count()).toBe(0);
    expect(r.errors).toEqual([]);
  });
});

describe('playing', () => {
  it('hands over on exactly the frame shown, by pausing and by stepping, at every speed', async () => {
    const { page, hands } = r;
    await hands.press('Home', '[', '[', '[', '[');
    for (const faster of ['', ']', ']', ']', ']', ']']) {
      if (faster) await hands.press(faster);
      await hands.stepTo(30);
      await hands.press('Space');
      await hands.playedTo(33);
      let eye = await watchPictures(page);
      await hands.press('Space');
      await page.getByRole('button', { name: /^Play/ }).waitFor();
      await until(
        async () => (await r.still()) === (await hands.frame()),
        'the still is the frame on the desk',
      );
      let shown = await eye();
      expect(shown.stills).toEqual([shown.played]);

      await hands.press('Space');
      await hands.playedTo((await hands.frame()) + 2);
      eye = await watchPictures(page);
      await hands.press('ArrowRight');
      await page.getByRole('button', { name: /^Play/ }).waitFor();
      await until(async () => (await r.still()) === (await hands.frame()), 'the still of the step');
      shown = await eye();
      expect(shown.stills.at(-1)).toBe(shown.played + 1);
      expect(await hands.frame()).toBe(await r.still());
    }
    await hands.press('[');
    expect(await page.getByText('1×', { exact: true }).count()).toBe(1);
  });

  it('goes round and round between two presses', async () => {
    const { page, hands } = r;
    await hands.stepTo(50);
    await hands.press(';');
    await hands.stepTo(62);
    await hands.press(';', 'Space');
    const frames = await page.evaluate(async () => {
      const list: number[] = [];
      const line = document.querySelector('[role="slider"][aria-valuenow]');
      for (const end = performance.now() + 3000; performance.now() < end;) {
        list.push(Number(line?.getAttribute('aria-valuenow')));
        await new Promise((resolve) => requestAnimationFrame(resolve));
      }
      return list;
    });
    await hands.press('Space', ';');
    await page.getByRole('button', { name: /^Play/ }).waitFor();
    const turns = frames.filter((f, i) => (frames[i + 1] ?? f) < f);
    expect(turns.length).toBeGreaterThanOrEqual(2);
    expect(Math.min(...frames.slice(frames.findIndex((f) => f >= 50)))).toBe(50);
    // A picture or two more may be shown before the player is told to go back, and on a busy machine more in one round
    // or another; a stretch that ends in the wrong place ends there in every round.
    expect(Math.min(...turns)).toBeGreaterThanOrEqual(61);
    expect(Math.min(...turns)).toBeLessThanOrEqual(66);
    expect(r.errors).toEqual([]);
  });
});

describe('the light', () => {
  /** Mean of all channels of what the screen shows in the middle of the picture. */
  const onScreen = async (): Promise<number> => {
    const box = await r.page.getByRole('region', { name: 'Footage' }).boundingBox();
    if (!box) throw new Error('no picture');
    const clip = { x: box.x + 300, y: box.y + 200, width: 200, height: 150 };
    const png = await r.page.screenshot({ clip });
    return r.page.evaluate(
      async (bytes) => {
        const bitmap = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: 'image/png' }));
        const paper = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
        paper?.drawImage(bitmap, 0, 0);
        const data =
          paper?.getImageData(0, 0, bitmap.width, bitmap.height).data ?? new Uint8ClampedArray([0]);
        return data.reduce((sum, v) => sum + v, 0) / data.length;
      },
      [...png],
    );
  };
  const stored = async (): Promise<string> =>
    Buffer.from((await pixelsOf(r.page, '[data-shown] > canvas')).data).toString('base64');

  it('changes what is seen, for still and player, and nothing else; it is kept for the clip', async () => {
    const { page, hands } = r;
    await hands.stepTo(10);
    await until(async () => (await r.still()) === 10, 'frame 10');
    const before = await onScreen();
    const pixels = await stored();
    await hands.press('F9', 'c', 'c', 'c', 'c', 'c', 'w', 'w');
    await page.waitForTimeout(300);
    const lit = await onScreen();
    expect(lit).toBeGreaterThan(before + 20);
    expect(await stored()).toBe(pixels);
    // The player lies in the same light as the still.
    expect(await page.locator('[data-lit] video').count()).toBe(1);
    await page.waitForTimeout(600);
    await page.reload();
    await page.locator('[data-shown="true"]').waitFor({ state: 'attached' });
    await hands.stepTo(10);
    await until(async () => (await r.still()) === 10, 'frame 10');
    await page.waitForTimeout(300);
    expect(Math.abs((await onScreen()) - lit)).toBeLessThan(2);
    await hands.press('F9');
    await page.getByRole('slider', { name: 'Brightness' }).focus();
    await page.keyboard.press('ArrowLeft');
    expect(Number(await page.getByRole('slider', { name: 'Brightness' }).inputValue())).toBeCloseTo(1.15, 5);
    expect(await hands.frame()).toBe(10);
    await page.getByRole('button', { name: /^As filmed/ }).click();
    await page.waitForTimeout(300);
    expect(Math.abs((await onScreen()) - before)).toBeLessThan(2);
    expect(r.errors).toEqual([]);
  });

  it('leaves the stills of the report as they are, byte for byte', async () => {
    const { page, hands } = r;
    // The report pictures the two moments of a start line.
    await hands.press('Escape', 'Escape', 's', 's');
    await hands.stepTo(20);
    await hands.press('r');
    await hands.stepTo(30);
    await hands.press('p', 'Escape');
    await hands.kept();
    const stills = async (): Promise<string[]> => {
      await page.keyboard.press('F6');
      await page.getByRole('heading', { name: 'Report', exact: true }).waitFor();
      await page.keyboard.press('w');
      await page.getByRole('button', { name: /^Open/ }).waitFor();
      const opened = page.context().waitForEvent('page');
      await page.keyboard.press('o');
      const report = await opened;
      await report.waitForLoadState();
      const sources = await report
        .locator('img')
        .evaluateAll((images) => images.map((i) => i.getAttribute('src') ?? ''));
      await report.close();
      return sources.filter((s) => s.startsWith('data:image'));
    };
    const before = await stills();
    expect(before).toHaveLength(2);
    await page.keyboard.press('F4');
    await page.locator('[data-shown="true"]').waitFor({ state: 'attached' });
    expect(await page.locator('[data-light]').count()).toBe(0);
    for (const key of ['F9', 'c', 'c', 'c', 'w', 'w', 's', 'PageUp']) await page.keyboard.press(key);
    await page.locator('[data-light]').waitFor({ state: 'attached' });
    expect(await stills()).toEqual(before);
    expect(r.errors).toEqual([]);
  });
});
