import { afterAll, beforeAll, expect, it } from 'vitest';
import { paintedCompare, type Pair, type PaintedCompare } from './paintedCompare.ts';
import { buildWindow } from './reviewShell.ts';

let stand: PaintedCompare;

beforeAll(async () => {
  await buildWindow();
  stand = await paintedCompare();
});
afterAll(() => stand.close());

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
