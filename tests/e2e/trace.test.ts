import { PDFDocument } from '@napi-rs/canvas';
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
let page: Page;
let errors: string[];
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
  const drawn = { ...review, id: 'drawn', header: { title: 'Drawn' }, course: truth };
  await writeFile(join(folder, 'd.walkback.json'), JSON.stringify(drawn));
  const files = ['r', 'd'].map((name) => join(folder, `${name}.walkback.json`));
  await commandLine('import', ...files, '--library', join(folder, 'library'));
  shell = await startShell('--library', join(folder, 'library'));
  browser = await startChromium();
  // The address that the shell prints opens one window; both tests go on in it.
  ({ page, errors } = await openWindow(browser, shell));
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
async function onBoard(at: { x: number; y: number }): Promise<readonly [number, number]> {
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
    const contact = await colourAt(await onBoard(photo.onPhoto(13.2 + 1.8, 13.3)));
    const beside = await colourAt(await onBoard(photo.onPhoto(13.2 + 1.8, 12.4)));
    expect(contact.r - contact.b).toBeGreaterThan(40 + beside.r - beside.b);

    for (const o of truth.obstacles) {
      const at = middle(o);
      const [x, y] = await onBoard(photo.onPhoto(at.x, at.y));
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
      await click(await onBoard(photo.onPhoto(at.x, at.y)));
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
    expect(errors).toEqual([]);
  });
});

describe('files of a course', () => {
  it('a drawing parses in the browser and is taken in again; a hostile one, and another page of a PDF, are told and shown', async () => {
    await page.goto(`${new URL(shell.address).origin}/#/course/drawn`);
    await page.getByRole('tab', { name: 'Course', exact: true }).click();
    await page.getByLabel('As', { exact: true }).selectOption('svg');
    const download = page.waitForEvent('download');
    await page.keyboard.press('\\');
    await page.getByRole('button', { name: 'Save a copy' }).click();
    const saved = join(folder, 'saved.svg');
    await (await download).saveAs(saved);
    const svg = await readFile(saved, 'utf8');
    const parsed = await page.evaluate((text) => {
      const { documentElement: root } = new DOMParser().parseFromString(text, 'image/svg+xml');
      return {
        root: `${String(root.namespaceURI)} ${root.localName}`,
        broken: root.querySelector('parsererror') !== null,
        numbers: [...root.querySelectorAll('text')].map((t) => t.textContent).filter((t) => /^\d+$/.test(t)),
        scripts: root.querySelectorAll('script, foreignObject, image, use, a').length,
      };
    }, svg);
    expect(parsed).toMatchObject({ root: 'http://www.w3.org/2000/svg svg', broken: false, scripts: 0 });
    expect(parsed.numbers.map(Number).sort((a, b) => a - b)).toEqual(truth.steps.map((s) => s.number));

    const take = async (name: string, text: string): Promise<void> => {
      await writeFile(join(folder, name), text);
      const chooser = page.waitForEvent('filechooser');
      await page.getByRole('button', { name: /^Take in a course/ }).click();
      await (await chooser).setFiles(join(folder, name));
    };
    await take('hostile.svg', `<!DOCTYPE svg [<!ENTITY a "b">]>${svg.slice(svg.indexOf('<svg'))}`);
    await page.getByText(/“hostile\.svg” was not taken in.*document type/).waitFor();
    await take('later.course.json', '{"format":"walkback.course","version":7,"course":{}}');
    await page.getByText(/has version 7; this program reads version 1/).waitFor();
    await take('again.svg', svg.replace('Long evening', 'Short morning'));
    await page.getByText('The course of “again.svg” is here.').waitFor();

    const pdf = new PDFDocument();
    for (let n = 0; n < 2; n++) {
      pdf.beginPage(595, 842).fillRect(100, 100, 100 + 100 * n, 100);
      pdf.endPage();
    }
    await writeFile(join(folder, 'map.pdf'), pdf.close());
    const chooser = page.waitForEvent('filechooser');
    await page.keyboard.press('p');
    await (await chooser).setFiles(join(folder, 'map.pdf'));
    await page.getByText('Page 1 of 2').waitFor();
    await page.getByRole('button', { name: 'Next page' }).click();
    await page.getByText('Page 2 of 2').waitFor();
    await page.getByRole('button', { name: /^Lay it under/ }).waitFor();
    expect(errors).toEqual([]);
  });
});

async function colourAt([x, y]: readonly [number, number]): Promise<{ r: number; b: number }> {
  const png = await page.screenshot({ clip: { x: Math.round(x), y: Math.round(y), width: 1, height: 1 } });
  const { createCanvas, loadImage } = await import('@napi-rs/canvas');
  const canvas = createCanvas(1, 1);
  const to = canvas.getContext('2d');
  to.drawImage(await loadImage(png), 0, 0);
  const [r = 0, , b = 0] = to.getImageData(0, 0, 1, 1).data;
  return { r, b };
}
