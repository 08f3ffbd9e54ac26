import { expect, it } from 'vitest';
import { fitCourse } from '../../../src/ground/fit.ts';
import { onGround } from '../../../src/ground/groundError.ts';
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
  // Half a centimetre, all marks alike.
  expect(entry(view.error.cov, 9, 9)).toBeCloseTo(0.005 ** 2, 12);
  expect(view.error.cov.rows).toBe(1 + exact.numbers.length);
});
