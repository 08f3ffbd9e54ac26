import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countedCourse, courseProblems, type Obstacle } from '../../src/course/course.ts';
import { drawnSizes } from '../../src/course/equipment.ts';
import { readCourseFile } from '../../src/course/file/readCourseFile.ts';
import type { ObstacleKind } from '../../src/course/kinds.ts';
import { reviewFormat, reviewVersion } from '../../src/review/document.ts';
import { middleOf, tunnelLine } from '../../src/course/tunnelLine.ts';
import { demoCourse } from '../unit/course/file/demoCourse.ts';
import { mapPhoto, type MapPhoto } from './mapPhoto.ts';
import { buildWindow, commandLine, openWindow, startShell, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

/** The whole way of a judge's map: a tilted photo of it is laid under the drawing, and the course traced. */

let folder: string;
let shell: RunningShell;
let browser: Browser;
let photo: MapPhoto;
const truth = demoCourse();

beforeAll(async () => {
  await buildWindow();
  folder = await mkdtemp(join(tmpdir(), 'walkback-trace-'));
  photo = await mapPhoto(truth);
  await writeFile(join(folder, 'map.jpg'), photo.jpeg);
  const review = {
    format: reviewFormat,
    version: reviewVersion,
    id: 'traced',
    header: { title: 'Evening' },
    course: countedCourse(truth.steps.length),
  };
  await writeFile(join(folder, 'r.walkback.json'), JSON.stringify(review));
  await commandLine('import', join(folder, 'r.walkback.json'), '--library', join(folder, 'library'));
  shell = await startShell('--library', join(folder, 'library'));
  browser = await startChromium();
});
afterAll(async () => {
  await browser.close();
  await shell.stop();
  await rm(folder, { recursive: true, force: true });
});

const keys: Partial<Record<ObstacleKind, string>> = {
  barJump: '1',
  spread: '2',
  tyre: '6',
  tunnel: '7',
  weavePoles: '8',
  aFrame: '9',
  dogWalk: '0',
  seeSaw: 's',
};

/** The middle of a piece as the eye takes it: of a tunnel, half way along its tube. */
function middle(o: Obstacle): { x: number; y: number } {
  if (!o.stand) throw new Error(`${o.id} does not stand`);
  return o.kind === 'tunnel'
    ? middleOf(tunnelLine(o.stand, drawnSizes(o.kind, o.sizes).tunnelLength))
    : o.stand;
}

/** Where a place of the photo is on the screen as the browser shows it, by what it says of the picture itself. */
async function onBoard(page: Page, at: { x: number; y: number }): Promise<readonly [number, number]> {
  return page.getByRole('application').evaluate(
    (box, { x, y, width, height }) => {
      const picture = box.querySelector('img');
      if (!picture) throw new Error('no picture lies under the drawing');
      const { transform, width: w, height: h } = getComputedStyle(picture);
      const p = new DOMMatrix(transform).transformPoint(
        new DOMPoint((x / width) * parseFloat(w), (y / height) * parseFloat(h)),
      );
      const { left, top } = box.getBoundingClientRect();
      return [left + box.clientLeft + p.x / p.w, top + box.clientTop + p.y / p.w] as const;
    },
    { ...at, width: photo.width, height: photo.height },
  );
}

describe('a photo of a map', () => {
  it('is traced in under 45 clicks, and every obstacle stands within 10 cm of the truth', async () => {
    const { page, errors } = await openWindow(browser, shell);
    await page.setViewportSize({ width: 1920, height: 1080 });
    await page.getByText('Evening').first().waitFor();
    await page.goto(`${new URL(shell.address).origin}/#/course/traced`);
    await page.getByRole('application').waitFor();
    let clicks = 0;
    // A hand hits whole pixels.
    const click = async ([x, y]: readonly [number, number]): Promise<void> => {
      clicks++;
      await page.mouse.click(Math.round(x), Math.round(y));
    };
    const press = async (name: string | RegExp): Promise<void> => {
      clicks++;
      await page.getByRole('button', { name }).click();
    };

    const chooser = page.waitForEvent('filechooser');
    await press(/^Attach a picture/);
    await (await chooser).setFiles(join(folder, 'map.jpg'));
    await press(/^Lay it under the drawing/);

    const shown = await page.getByAltText('The map picture, on which known points are set.').boundingBox();
    if (!shown) throw new Error('the picture is not there');
    for (const [x, y] of [
      [40, 20],
      [0, 0],
      [40, 0],
      [0, 20],
    ] as const) {
      const at = photo.onPhoto(x, y);
      await click([
        shown.x + (at.x / photo.width) * shown.width,
        shown.y + (at.y / photo.height) * shown.height,
      ]);
    }
    await press('Lay it');

    // What the browser says of the picture is what it paints: yellow on the A-frame's contact, paper beside it.
    await page.getByRole('application').locator('img').waitFor();
    const contact = await colourAt(page, await onBoard(page, photo.onPhoto(13.2 + 1.8, 13.3)));
    const beside = await colourAt(page, await onBoard(page, photo.onPhoto(13.2 + 1.8, 12.4)));
    expect(contact.r - contact.b).toBeGreaterThan(40 + beside.r - beside.b);

    for (const o of truth.obstacles) {
      const at = middle(o);
      const [x, y] = await onBoard(page, photo.onPhoto(at.x, at.y));
      await page.mouse.move(Math.round(x), Math.round(y));
      await page.keyboard.press(keys[o.kind] ?? '1');
      // The key puts the piece under the pointer without a click; it is counted as one.
      clicks++;
    }
    await page.keyboard.press('n');
    for (const { obstacleId } of truth.steps) {
      const o = truth.obstacles.find((one) => one.id === obstacleId);
      if (!o) throw new Error('a number without an obstacle');
      const at = middle(o);
      await click(await onBoard(page, photo.onPhoto(at.x, at.y)));
    }
    expect(clicks).toBeLessThan(45);

    await page.getByRole('tab', { name: 'Course', exact: true }).click();
    await page.getByLabel('As', { exact: true }).selectOption('json');
    await page.getByRole('button', { name: /^Export/ }).click();
    await page.getByText('It lies in').waitFor();
    const reports = join(folder, 'library', 'reports');
    const [file = ''] = await readdir(reports);
    const reading = readCourseFile(await readFile(join(reports, file), 'utf8'));
    if (!reading.ok) throw new Error(reading.problems.join(' '));
    const { course } = reading;
    expect(courseProblems(course)).toEqual([]);
    expect(course.obstacles).toHaveLength(16);
    expect(course.steps.map((s) => s.number)).toEqual(truth.steps.map((s) => s.number));
    const off = truth.steps.map((step, i) => {
      const wanted = truth.obstacles.find((o) => o.id === step.obstacleId);
      const got = course.obstacles.find((o) => o.id === course.steps[i]?.obstacleId);
      if (!wanted || !got) throw new Error(`${step.number} stands on nothing`);
      expect(got.kind, `kind of ${step.number}`).toBe(wanted.kind);
      const [a, b] = [middle(wanted), middle(got)];
      return Math.hypot(a.x - b.x, a.y - b.y);
    });
    expect(Math.max(...off)).toBeLessThan(0.1);
    if (process.env['WALKBACK_LOOK']) {
      await page.screenshot({ path: join(process.env['WALKBACK_LOOK'], 'traced.png') });
      console.log('off by at most', Math.max(...off), 'clicks', clicks);
    }
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

async function colourAt(page: Page, [x, y]: readonly [number, number]): Promise<{ r: number; b: number }> {
  const png = await page.screenshot({ clip: { x: Math.round(x), y: Math.round(y), width: 1, height: 1 } });
  const { createCanvas, loadImage } = await import('@napi-rs/canvas');
  const canvas = createCanvas(1, 1);
  const to = canvas.getContext('2d');
  to.drawImage(await loadImage(png), 0, 0);
  const [r = 0, , b = 0] = to.getImageData(0, 0, 1, 1).data;
  return { r, b };
}
