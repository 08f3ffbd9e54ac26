import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { fci2023 } from '../../src/course/rules/fci2023.ts';
import { buildWindow, openWindow, startShell, type RunningShell } from './reviewShell.ts';
import { startChromium } from './shell/chromium.ts';

/** Rule books over the real program: loopback, host process, store. */
const demo = resolve(import.meta.dirname, '../../fixtures/demo/first-evening.walkback.json');

let folder: string;
let browser: Browser;
let shell: RunningShell;
let page: Page;
let errors: string[];
beforeAll(async () => {
  await buildWindow();
  browser = await startChromium();
});
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'walkback rules '));
  shell = await startShell('--library', join(folder, 'library'));
  ({ page, errors } = await openWindow(browser, shell));
  page.setDefaultTimeout(20_000);
  await page.waitForSelector('h1');
});
afterEach(async () => {
  expect(errors).toEqual([]);
  await page.context().close();
  await shell.stop();
  await rm(folder, { recursive: true, force: true, maxRetries: 3 });
});
afterAll(async () => {
  await browser.close();
});

/** Chooses a file in the browser's own dialog. */
async function give(button: string | RegExp, file: string): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: button }).first().click();
  await (await chooser).setFiles(file);
}

/** A book of the user's: the worked one under another id, with shorter distances and fewer obstacles. */
async function ownBook(most: number): Promise<string> {
  const source = { text: 'our own sheet', kind: 'own', edition: 'this' };
  const path = join(folder, 'evening.rules.json');
  const { spacing, ...course } = fci2023.course;
  const own = {
    ...fci2023,
    ...{ id: 'evening', name: 'Our evening' },
    course: {
      ...course,
      ...(spacing ? { spacing } : {}),
      obstacles: { value: { least: 3, most }, source, status: 'stated' },
    },
  };
  await writeFile(path, JSON.stringify(own));
  return path;
}

const openDemoCourse = async (): Promise<void> => {
  await give(/Take in a review/, demo);
  await page.getByRole('link', { name: 'Course' }).waitFor();
  await page.waitForFunction(() => /^#\/(review|course)\//.test(location.hash));
  await page.getByRole('link', { name: 'Course' }).click();
  await page.getByRole('tab', { name: 'Rules' }).click();
};
const rules = () => page.getByRole('tabpanel');

it('takes in a book of the user, checks a course by it, and changes with the book that is chosen', async () => {
  await page.getByRole('link', { name: 'Settings' }).click();
  const broken = join(folder, 'broken.rules.json');
  await writeFile(broken, '{"format":"walkback.rules","version":1,"id":"x"');
  await give('Take in a rule book', broken);
  await page.getByText(/“broken\.rules\.json” was not taken in\. .*not JSON/).waitFor();
  await give('Take in a rule book', await ownBook(12));
  await page.getByText('“Our evening” was taken in.').waitFor();
  await page.getByRole('button', { name: 'Look into “Our evening”' }).click();
  await page
    .getByRole('dialog')
    .getByRole('row', { name: /Count of obstacles 3 to 12 our own sheet/ })
    .waitFor();
  await page.keyboard.press('Escape');

  await page.getByRole('link', { name: 'Library' }).click();
  await openDemoCourse();
  await rules()
    .getByRole('button', { name: /^Use “FCI/ })
    .click();
  await rules()
    .getByText(/rules? (is|are) kept/)
    .click();
  await rules().getByText('Obstacles: 19; 15 to 22 is asked.').waitFor();
  await rules()
    .getByText(/from memory, not read/)
    .first()
    .waitFor();
  await rules().getByLabel('Rule book').selectOption('Our evening');
  await rules().getByText('Obstacles: 19; too much, 3 to 12 is asked.').waitFor();
  await rules().getByText('Rule: our own sheet; as the book’s writer states it').waitFor();

  // The height category is stored with the course; what is too near is shown on the map.
  await rules().getByLabel('Height category').selectOption('L');
  await rules()
    .getByRole('button', { name: /^3 to 4: 4\.92 m; too little/ })
    .click();
  await page.getByText('2 pieces').first().waitFor();

  // Another book under the same id does not slip in: it is asked for, and can be taken back.
  await page.getByRole('link', { name: 'Settings' }).click();
  await give('Take in a rule book', await ownBook(20));
  await page.getByRole('button', { name: 'Replace it' }).click();
  await page.getByText('“Our evening” was replaced.').waitFor();
  await page.getByRole('link', { name: 'Course' }).click();
  await page.getByRole('tab', { name: 'Rules' }).click();
  await rules()
    .getByText(/has other entries here/)
    .waitFor();
  await page.reload();
  await page.getByRole('tab', { name: 'Rules' }).click();
  await rules().getByRole('button', { name: 'Go by the one here' }).click();
  await expect
    .poll(() =>
      rules()
        .getByText(/has other entries here/)
        .count(),
    )
    .toBe(0);
  await expect.poll(() => rules().getByLabel('Height category').inputValue()).toBe('L');

  // A removed book leaves its name with the course; undo brings it back.
  await page.getByRole('link', { name: 'Settings' }).click();
  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save a copy of “Our evening”' }).click();
  const copy = await readFile(await (await saved).path(), 'utf8');
  expect(JSON.parse(copy)).toMatchObject({ id: 'evening', course: { obstacles: { value: { most: 20 } } } });
  await page.getByRole('button', { name: 'Remove “Our evening”' }).click();
  await page.getByRole('link', { name: 'Course' }).click();
  await page.getByRole('tab', { name: 'Rules' }).click();
  await rules()
    .getByText(/built by “Our evening”, which is not in this library/)
    .waitFor();
  await page.getByRole('button', { name: 'Undo', exact: true }).last().click();
  await rules()
    .getByText(/Obstacles: 19; 3 to 20 is asked|kept altogether/)
    .first()
    .waitFor();
});

it('tells distances and course times while an obstacle is dragged and while figures are typed', async () => {
  await openDemoCourse();
  await rules()
    .getByRole('button', { name: /^Use “FCI/ })
    .click();
  await rules().getByLabel('Height category').selectOption('L');
  await rules().getByLabel('Discipline').selectOption('jumping');
  await rules().getByText('Length, straight from centre to centre: 127.28 m.').waitFor();
  await rules().getByLabel('Maximum course time as stated, s').fill('75,5');
  await page.keyboard.press('Enter');
  await rules().getByText('Maximum course time: 75.50 s, as the judge stated it.').waitFor();
  await rules().getByLabel('Speed the judge chose, m/s').fill('fast');
  await page.keyboard.press('Enter');
  await page.getByText(/takes a number from 0\.1 to 20/).waitFor();

  await rules()
    .getByRole('button', { name: /^3 to 4: 4\.92 m/ })
    .waitFor();
  const board = page.getByRole('application');
  const box = await board.boundingBox();
  if (!box) throw new Error('there is no board');
  const scale = Math.min((box.width - 58) / 40, (box.height - 58) / 20);
  const at = (x: number, y: number): readonly [number, number] => [
    box.x + box.width / 2 + (x - 20) * scale,
    box.y + box.height / 2 - (y - 10) * scale,
  ];
  // Number 8 of the demo stands near (12.2, 3.4).
  const stand = (
    JSON.parse(await readFile(demo, 'utf8')) as {
      course: {
        steps: { number: number; obstacleId: string }[];
        obstacles: { id: string; stand: { x: number; y: number } }[];
      };
    }
  ).course;
  const id = stand.steps.find((s) => s.number === 8)?.obstacleId;
  const eight = stand.obstacles.find((o) => o.id === id)?.stand;
  if (!eight) throw new Error('the demo has no number 8 on the grass');
  await page.mouse.move(...at(eight.x, eight.y));
  await page.mouse.down();
  await page.mouse.move(...at(eight.x + 1, eight.y), { steps: 3 });
  await page.mouse.move(...at(eight.x + 3, eight.y), { steps: 3 });
  // Still held: the distance to 7 has become too small, and the page says so already.
  await rules()
    .getByRole('button', { name: /^7 to 8: .* too little/ })
    .waitFor();
  await page.mouse.move(...at(eight.x, eight.y), { steps: 3 });
  await page.mouse.up();
  await expect
    .poll(() =>
      rules()
        .getByRole('button', { name: /^7 to 8: .* too little/ })
        .count(),
    )
    .toBe(0);
});
