import { expect, it } from 'vitest';
import { project } from '../../../src/ground/camera.ts';
import { fitCourse } from '../../../src/ground/fit.ts';
import { errorAt, onGround } from '../../../src/ground/groundError.ts';
import { groundViewOf } from '../../../src/track/groundView.ts';
import { carried, entry, mat } from '../../../src/track/matrices.ts';
import { seenAt } from '../../../scripts/simulator/camera/path.ts';
import { cameraAt, clicked, picture, spotsIn } from '../ground/scene.ts';

const camera = cameraAt(3, 67);
const fit = fitCourse(clicked(camera, spotsIn(camera, 20, 2), 0, 4), picture);
if (!fit.fitted) throw new Error(fit.why);
const exact = fit;

it('says of a pixel what the fit says of it: place, and its spread from the fit and the click', () => {
  const view = groundViewOf(exact, 0);
  const pixel = { x: 900, y: 700 };
  const [there, told] = [view.under(pixel), onGround(exact, pixel)];
  if (!there || !told || !view.error) throw new Error('no ground');
  expect(there.x).toBeCloseTo(told.at.x, 9);
  expect(there.y).toBeCloseTo(told.at.y, 9);
  const fromFit = carried(mat(there.byFit), view.error.cov);
  expect(entry(fromFit, 0, 0)).toBeCloseTo(told.spread.xx - told.fromClick.xx, 9);
  expect(entry(fromFit, 0, 1)).toBeCloseTo(told.spread.xy - told.fromClick.xy, 9);
  expect(entry(fromFit, 1, 1)).toBeCloseTo(told.spread.yy - told.fromClick.yy, 9);
  expect(view.under({ x: 900, y: -5000 })).toBeNull();
});

it('a point clicked a centimetre above the ground lies so far off as the simulator has it', () => {
  const view = groundViewOf(exact);
  const [x, y] = [12, 14];
  const raised = seenAt(camera, { x, y, z: 0.01 }, 0);
  const there = raised && view.under({ x: raised.u, y: raised.v });
  if (!there || !view.error) throw new Error('no ground');
  const [byX, byY] = there.byFit.map((row) => row.at(-1) ?? NaN);
  expect(there.x - x).toBeCloseTo(0.01 * (byX ?? NaN), 3);
  expect(there.y - y).toBeCloseTo(0.01 * (byY ?? NaN), 3);
  expect(Math.hypot(there.x - x, there.y - y)).toBeGreaterThan(0.05);
  // Half a centimetre, all marks alike; its lens was fitted, so that nothing is allowed for that.
  expect(exact.numbers).toHaveLength(9);
  expect(view.error.cov.rows).toBe(11);
  expect(entry(view.error.cov, 9, 9)).toBe(0);
  expect(entry(view.error.cov, 10, 10)).toBeCloseTo(0.005 ** 2, 12);
});

it('a lens that few points cannot tell moves a click as the simulator has it', () => {
  const k1 = -0.01;
  const bending = cameraAt(3, 67, { lens: { k1, k2: 0 } });
  const few = fitCourse(clicked(bending, spotsIn(bending, 6, 5), 0, 4), picture);
  if (!few.fitted) throw new Error(few.why);
  expect(few.warnings.map((w) => w.warning)).toContain('lensUnknown');
  const view = groundViewOf(few, 0);
  // The simulator counts in focal lengths, the fit in half diagonals.
  const unit = Math.hypot(picture.width, picture.height) / 2;
  const focal = picture.width / 2 / Math.tan((67 * Math.PI) / 360);
  const told = k1 * (unit / focal) ** 2;
  let most = 0;
  for (const spot of spotsIn(bending, 20, 9)) {
    const pixel = seenAt(bending, { ...spot, z: 0 }, 0);
    const there = pixel && view.under({ x: pixel.u, y: pixel.v });
    if (!there) throw new Error('no ground');
    const off = Math.hypot(there.x - spot.x, there.y - spot.y);
    const [byX = NaN, byY = NaN] = there.byFit.map((row) => row.at(-2) ?? NaN);
    expect(Math.hypot(there.x - spot.x - told * byX, there.y - spot.y - told * byY)).toBeLessThan(
      0.25 * off + 0.002,
    );
    most = Math.max(most, off);
  }
  expect(most).toBeGreaterThan(0.03);
  expect(entry(view.error?.cov ?? mat([]), 8, 8)).toBeCloseTo(0.05 ** 2, 12);
  expect(groundViewOf({ ...few, warnings: [] }, 0).error?.cov.v[8 * 10 + 8]).toBe(0);
});

it.each([6, 12, 20])('the map of errors allows for what a line allows for: %d points', (count) => {
  const one = fitCourse(clicked(camera, spotsIn(camera, count, 8), 2, 4), picture);
  if (!one.fitted) throw new Error(one.why);
  const view = groundViewOf(one);
  for (const spot of spotsIn(camera, 12, 9)) {
    const pixel = project(one.camera, spot);
    const there = pixel && view.under(pixel);
    if (!there || !view.error) throw new Error('no ground');
    const [a, b, c, d] = there.byPixel;
    const shared = carried(mat(there.byFit), view.error.cov);
    const click = view.clickNoise ** 2 * (a * a + b * b + c * c + d * d);
    const expected = 100 * Math.sqrt(click + entry(shared, 0, 0) + entry(shared, 1, 1));
    expect(errorAt(one, spot)).toBeCloseTo(expected, 6);
  }
});
