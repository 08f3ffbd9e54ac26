import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { probe } from '../../src/footage/probe.ts';
import { timelineOf } from '../../src/report/clip/timeline.ts';
import { systemBuild } from '../reference/footage/builds.ts';
import { paintedNumbers } from '../reference/footage/independent.ts';
import { paintedCompare, type Pair, type PaintedCompare } from './paintedCompare.ts';
import { buildWindow } from './reviewShell.ts';
import { savedClip } from './savedClip.ts';
import { violations, wcag } from './violations.ts';

let stand: PaintedCompare;
let folder: string;

beforeAll(async () => {
  await buildWindow();
  folder = await mkdtemp(join(tmpdir(), 'walkback-compare-clip-'));
  stand = await paintedCompare();
});
afterAll(async () => {
  await stand.close();
  await rm(folder, { recursive: true, force: true });
});

/** By how many frames the second picture misses the place that the first one shows. */
const off = ([a, b]: Pair): number =>
  a === null || b === null ? Infinity : Math.abs(b - stand.samePlace(a));

/** Waits until both pictures have come to rest somewhere new. */
async function rest(before: Pair): Promise<Pair> {
  let last = before;
  await expect
    .poll(
      async () => {
        const now = await stand.pair();
        const still = now.join() === last.join() && now.join() !== before.join();
        last = now;
        return still;
      },
      { timeout: 60_000 },
    )
    .toBe(true);
  return last;
}

it('holds two films to the matching frame: stepped, scrubbed, started, in slow motion, and on a common clock', async () => {
  const { page, errors } = stand;
  let now = await stand.pair();
  expect(off(now)).toBeLessThanOrEqual(1);

  for (const key of ['ArrowRight', 'ArrowRight', '.', 'ArrowLeft', 'ArrowDown', 'ArrowDown', 'ArrowUp']) {
    await page.keyboard.press(key);
    now = await rest(now);
    expect({ key, off: off(now) <= 1, now }).toEqual({ key, off: true, now });
  }

  // By hand, along the line of the gap, forward and back.
  const line = await page.getByRole('slider', { name: 'Gap along the course' }).boundingBox();
  if (!line) throw new Error('there is no line');
  await page.mouse.move(line.x + line.width * 0.2, line.y + 40);
  await page.mouse.down();
  for (const share of [0.3, 0.5, 0.8, 0.75, 0.45]) {
    await page.mouse.move(line.x + line.width * share, line.y + 40);
    expect(off(await stand.pair())).toBeLessThanOrEqual(1);
  }
  await page.mouse.up();
  now = await rest([-1, -1]);
  expect(off(now)).toBeLessThanOrEqual(1);

  // Started: every refresh of the screen is looked at.
  await page.keyboard.press('Home');
  await rest(now);
  await page.keyboard.press('Space');
  const played = await stand.pairs(120);
  await page.keyboard.press('[');
  const slow = await stand.pairs(40);
  await page.keyboard.press('Space');
  const all = [...played, ...slow];
  expect(Math.max(...all.map(off))).toBeLessThanOrEqual(1);
  expect(new Set(played.map((p) => p[0])).size).toBeGreaterThan(20);

  // A common clock holds them by time, not by place: where the first is at 4, the other is not.
  now = await rest([-1, -1]);
  await page.keyboard.press('l');
  await page.keyboard.press('End');
  await expect.poll(async () => (await stand.pair())[0]).toBe(299);
  expect(errors).toEqual([]);
});

it('makes a clip of both by keyboard, slowed and held, at each moment the matching frames, and saves it', async () => {
  const { page, errors, table } = stand;
  const build = await systemBuild();
  if (!build) throw new Error('there is no ffmpeg to read the clip with');
  // By place again; the frame on the screen is the one that can be held.
  await page.keyboard.press('l');
  await page.keyboard.press('End');
  await page.keyboard.press(',');
  await page.keyboard.press(',');
  await expect.poll(async () => (await stand.pair())[0]).toBe(279);
  await page.keyboard.press('*');
  const dialog = page.getByRole('dialog', { name: 'Make a clip' });
  await dialog.waitFor();
  await dialog.getByLabel('First frame').fill('225');
  await dialog.getByLabel('Last frame').fill('279');
  await dialog.getByLabel('Slow motion').selectOption({ label: '1/2 all through' });
  await dialog.getByLabel('Hold the frame for').selectOption({ label: '1 second' });
  // The names of the runs would stand over the painted numbers.
  await dialog.getByLabel('splits and words').uncheck();
  expect(await violations(page, { within: 'dialog', tags: wcag })).toEqual([]);
  const file = await savedClip(page, dialog, folder);

  const { shots } = timelineOf(table, {
    parts: [{ from: 225, to: 279 }],
    slow: [{ from: 225, to: 279, speed: 1 / 2 }],
    freezes: [{ frame: 279, seconds: 1 }],
  });
  const asked = shots.flatMap((s) => Array.from({ length: s.ticks }, () => s.frame));
  // Both films at one height, each in its own shape: 16 to 9, and 4 to 3.
  expect((await probe(file)).picture).toMatchObject({ codec: 'h264', width: 640 + 480, height: 360 });
  expect(paintedNumbers(build, file, '640:360:0:0')).toEqual(asked);
  expect(paintedNumbers(build, file, '480:360:640:0')).toEqual(asked.map((f) => stand.samePlace(f)));
  expect(asked.filter((f) => f === 279).length).toBeGreaterThanOrEqual(30);

  await page.keyboard.press('Escape');
  await expect.poll(() => dialog.isVisible()).toBe(false);
  expect(errors).toEqual([]);
});

it('is reached and left by key alone: from the Library, and to other runs', async () => {
  const { page } = stand;
  await page.keyboard.press('F2');
  // The screen of the runs has links of the same name: the Library has to be there first.
  await page.getByRole('heading', { name: 'Library' }).waitFor();
  await page.getByRole('link', { name: 'Run 1' }).focus();
  await page.keyboard.press('c');
  await page.getByText('The same course', { exact: true }).waitFor();
  // Both runs stand there only once it is known which are of the same course.
  await expect.poll(() => page.getByRole('checkbox').count()).toBe(2);
  await page.keyboard.press('ArrowDown');
  // The run that was in focus is chosen already; the other one is ticked.
  for (const box of await page.getByRole('checkbox').all()) {
    if (!(await box.isChecked())) await box.press('Space');
  }
  await page.keyboard.press('c');
  await page.getByRole('columnheader', { name: 'B’s difference' }).waitFor();
  await page.keyboard.press('m');
  await expect.poll(() => page.evaluate(() => location.hash)).toBe('#/compare/run-1/run-0');
  // The runs are opened anew in their new order; their keys come with them.
  await page.getByRole('columnheader', { name: 'B’s difference' }).waitFor();
  await page.keyboard.press('c');
  await page.getByRole('heading', { name: 'Choose two to four runs' }).waitFor();
});
