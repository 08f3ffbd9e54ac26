import { expect, it } from 'vitest';
import { fitCourse } from '../../../src/ground/fit.ts';
import { onGround } from '../../../src/ground/groundError.ts';
import { groundViewOf } from '../../../src/track/groundView.ts';
import { carried, entry, mat } from '../../../src/track/matrices.ts';
import { cameraAt, clicked, picture, spotsIn } from '../ground/scene.ts';

it('says of a pixel what the fit says of it: place, and its spread from the fit and the click', () => {
  const camera = cameraAt(3, 67);
  const fit = fitCourse(clicked(camera, spotsIn(camera, 20, 2), 2, 4), picture);
  if (!fit.fitted) throw new Error(fit.why);
  const view = groundViewOf(fit);
  const pixel = { x: 900, y: 700 };
  const [there, told] = [view.under(pixel), onGround(fit, pixel)];
  if (!there || !told || !view.error) throw new Error('no ground');
  expect(there.x).toBeCloseTo(told.at.x, 9);
  expect(there.y).toBeCloseTo(told.at.y, 9);
  const fromFit = carried(mat(there.byFit), view.error.cov);
  expect(entry(fromFit, 0, 0)).toBeCloseTo(told.spread.xx - told.fromClick.xx, 9);
  expect(entry(fromFit, 0, 1)).toBeCloseTo(told.spread.xy - told.fromClick.xy, 9);
  expect(entry(fromFit, 1, 1)).toBeCloseTo(told.spread.yy - told.fromClick.yy, 9);
  expect(view.under({ x: 900, y: -5000 })).toBeNull();
});
