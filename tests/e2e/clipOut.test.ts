import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { timelineOf } from '../../src/report/clip/timeline.ts';
import { systemBuild } from '../reference/footage/builds.ts';
import { paintedNumbers } from '../reference/footage/independent.ts';
import { paintedReview, type PaintedReview } from './paintedReview.ts';
import { buildWindow } from './reviewShell.ts';
import { savedClip } from './savedClip.ts';
import { violations, wcag } from './violations.ts';

let stand: PaintedReview;
let folder: string;

beforeAll(async () => {
  await buildWindow();
  folder = await mkdtemp(join(tmpdir(), 'walkback-clip-out-'));
  stand = await paintedReview('vfr');
});
afterAll(async () => {
  await stand.close();
  await rm(folder, { recursive: true, force: true });
});

it('makes a clip from one frame to another by keyboard, slowed and held, and saves it with exactly those frames', async () => {
  const { page, hands, clock } = stand;
  await hands.stepTo(60);
  await page.keyboard.press('*');
  const dialog = page.getByRole('dialog', { name: 'Make a clip' });
  await dialog.waitFor();
  await dialog.getByLabel('First frame').fill('55');
  await dialog.getByLabel('Last frame').fill('70');
  await dialog.getByLabel('Slow motion').selectOption({ label: '1/4 all through' });
  await dialog.getByLabel('Hold the frame for').selectOption({ label: '2 seconds' });
  await dialog.getByLabel('Words under it').fill('<b>take-off</b>');
  expect(await violations(page, { within: 'dialog', tags: wcag })).toEqual([]);
  const file = await savedClip(page, dialog, folder);

  const build = await systemBuild();
  if (!build) throw new Error('there is no ffmpeg to read the clip with');
  const { shots } = timelineOf(clock.table, {
    parts: [{ from: 55, to: 70 }],
    slow: [{ from: 55, to: 70, speed: 1 / 4 }],
    freezes: [{ frame: 60, seconds: 2 }],
  });
  expect(paintedNumbers(build, file)).toEqual(
    shots.flatMap((s) => Array.from({ length: s.ticks }, () => s.frame)),
  );

  // Back at the form the button that was pressed is gone; the dialog still has the keys.
  await dialog.getByRole('button', { name: 'Another clip' }).press('Enter');
  await dialog.getByLabel('What it shows').waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => dialog.isVisible()).toBe(false);
  expect(stand.errors).toEqual([]);
});
