import { describe, expect, it } from 'vitest';
import { bumped } from '../../../src/ground/bumped.ts';
import { fitCourse, type Fit } from '../../../src/ground/fit.ts';
import { errorAt, errorMap, middleError, onGround } from '../../../src/ground/groundError.ts';
import { higherStand } from '../../../src/ground/higherStand.ts';
import { homography } from '../../../src/ground/homography.ts';
import type { Sighting } from '../../../src/ground/model.ts';
import { pinholeOf } from '../../../src/ground/pinhole.ts';
import type { CameraAt } from '../../../scripts/simulator/camera/path.ts';
import { cameraAt, clicked, picture, ringCorners, spotsIn, truePixel } from './scene.ts';

const whole = { from: { x: 0, y: 0 }, to: { x: 20, y: 40 } };

function fitOf(camera: CameraAt, count: number, noise = 2): Fit {
  const fit = fitCourse(clicked(camera, spotsIn(camera, count, 8), noise, 4), picture, { area: ringCorners });
  if (!fit.fitted) throw new Error(fit.why);
  return fit;
}

describe('a mapped click', () => {
  const camera = cameraAt(3, 67);

  it('carries the error of the click and of the fit, and no ground above the horizon', () => {
    const fit = fitOf(camera, 12);
    const pixel = truePixel(camera, { x: 10, y: 25 }) ?? { x: 0, y: 0 };
    const [sharp, loose] = [onGround(fit, pixel, 0), onGround(fit, pixel, 4)];
    if (!sharp || !loose) throw new Error('no ground');
    expect(sharp.fromClick.yy).toBe(0);
    expect(loose.spread.yy - loose.fromClick.yy).toBeCloseTo(sharp.spread.yy, 12);
    expect(loose.ellipse.longer).toBeGreaterThan(loose.ellipse.shorter);
    expect(onGround(fit, { x: 960, y: -50 })).toBeNull();
    expect(onGround(fit, { x: NaN, y: 3 })).toBeNull();
  });

  it('is the looser along the view the farther it lies and the lower the camera stands', () => {
    const along = (height: number, y: number): number => {
      const real = cameraAt(height, 67);
      const pixel = truePixel(real, { x: 10, y }) ?? { x: 0, y: 0 };
      return onGround(fitOf(real, 40, 0), pixel, 2)?.fromClick.yy ?? NaN;
    };
    // Depth errs with distance squared over height (design: ground plane): by deviations, 5 m behind the ring.
    expect(Math.sqrt(along(3, 25) / along(3, 10))).toBeCloseTo((30 / 15) ** 2, 0);
    expect(Math.sqrt(along(1.6, 25) / along(3.2, 25))).toBeCloseTo(2, 0);
  });

  it('is painted over the ring, and nothing where the picture does not show it', () => {
    const fit = fitOf(camera, 20);
    const map = errorMap(fit, whole, 2);
    expect([map.columns, map.rows, map.centimetres.length]).toEqual([10, 20, 200]);
    expect(map.centimetres[0]).toBeNull();
    expect(map.centimetres[10 * 10 + 5]).toBe(errorAt(fit, { x: 11, y: 21 }));
    const middle = middleError(map);
    expect(middle?.seen).toBeGreaterThan(0.8);
    expect(middle?.centimetres).toBeGreaterThan(5);
    expect(middleError(errorMap(fit, { from: { x: 0, y: -90 }, to: { x: 20, y: -60 } }, 2))).toBeNull();
    expect(
      errorMap(fit, { from: { x: 0, y: 0 }, to: { x: 1000, y: 1000 } }, 0.001).centimetres.length,
    ).toBeLessThan(25_000);
  });
});

describe('what a higher stand would buy', () => {
  it.each([1.6, 3])('from %d m to 5 m: as the fit comes out there', (height) => {
    const fit = fitOf(cameraAt(height, 67), 20);
    const raised = higherStand(fit, 5);
    if (!raised.known) throw new Error(raised.why);
    expect(raised.heightNow / height).toBeGreaterThan(0.93);
    expect(raised.heightNow / height).toBeLessThan(1.07);
    const [now, then, there] = [fit, raised.view, fitOf(cameraAt(5, 67), 20)].map(
      (view) => middleError(errorMap(view, whole, 1))?.centimetres ?? NaN,
    );
    expect(then).toBeLessThan((now ?? NaN) * 0.85);
    expect(Math.abs((then ?? NaN) / (there ?? NaN) - 1)).toBeLessThan(0.15);
  });

  it('the same height changes nothing', () => {
    const fit = fitOf(cameraAt(3, 67), 20, 0);
    const same = higherStand(fit, pinholeOf(fit)?.at.z ?? NaN);
    if (!same.known) throw new Error(same.why);
    expect(same.lost).toEqual([]);
    expect(errorAt(same.view, { x: 10, y: 20 })).toBeCloseTo(errorAt(fit, { x: 10, y: 20 }) ?? NaN, 4);
  });

  it('finds where the camera stands and what its focal length is', () => {
    const real = cameraAt(3, 67, { aside: 4, pan: -0.2 });
    const hole = pinholeOf(fitOf(real, 30, 0));
    const truth = real.at(0);
    expect(hole?.focal).toBeCloseTo(truth.focal, 2);
    expect(hole?.at.x).toBeCloseTo(truth.at.x, 4);
    expect(hole?.at.y).toBeCloseTo(truth.at.y, 4);
    expect(hole?.at.z).toBeCloseTo(truth.at.z, 4);
  });

  it('says where it cannot be told: seen from straight above, points too loose, a height that is none', () => {
    const above = (p: { x: number; y: number }): Sighting => ({
      id: `${p.x} ${p.y}`,
      ground: p,
      pixel: { x: 400 + 25 * p.x, y: 1050 - 25 * p.y },
    });
    const fit = fitCourse([...spotsIn(cameraAt(5, 67), 12, 8)].map(above), picture);
    if (!fit.fitted) throw new Error(fit.why);
    expect(higherStand(fit, 5)).toEqual({ known: false, why: 'focalUnknown' });
    expect(higherStand(fitOf(cameraAt(3, 67), 12), NaN)).toEqual({ known: false, why: 'focalUnknown' });
    // The focal length stated: now the height follows.
    const told = higherStand(fit, 80, 1450);
    expect(told.known && told.heightNow).toBeCloseTo(1450 / 25, 6);
    expect(homography([])).toBeNull();
  });
});

describe('a camera that was bumped', () => {
  const camera = cameraAt(3, 67);
  const fit = fitOf(camera, 12);
  const spots = spotsIn(camera, 6, 20);
  const after = (moved: CameraAt, seed: number): Sighting[] => clicked(moved, spots, 2, seed);
  const turned = cameraAt(3, 67, { pan: 0.008 });

  it('stands still through a hundred re-clicks of six points', () => {
    const verdicts = Array.from({ length: 100 }, (_, i) => bumped(fit, after(camera, 50 + i)).verdict);
    expect(verdicts.filter((v) => v !== 'still').length).toBeLessThanOrEqual(2);
  });

  it('has moved when it is turned by half a degree, and by how much the picture shifted', () => {
    const told = bumped(fit, after(turned, 3));
    expect(told.verdict).toBe('moved');
    expect(told.id).toBeNull();
    // 0.008 rad at a focal length of 1450 px, to the left.
    expect(Math.abs(told.shift.x + 0.008 * 1450)).toBeLessThan(told.shiftPlusMinus.x + 2);
    const far = cameraAt(3, 67, { pan: 0.02 });
    expect(bumped(fit, clicked(far, spots.slice(0, 2), 2, 3)).verdict).toBe('moved');
  });

  it('one wrong click among six is that click, and of two it cannot be told', () => {
    const one = after(camera, 3).map((s, i) =>
      i === 2 ? { ...s, pixel: { x: s.pixel.x + 40, y: s.pixel.y } } : s,
    );
    expect(bumped(fit, one)).toMatchObject({ verdict: 'onePoint', id: 'p2' });
    expect(bumped(fit, one.slice(1, 3)).verdict).toBe('unclear');
    expect(bumped(fit, one.slice(2, 3)).verdict).toBe('unclear');
    expect(bumped(fit, []).verdict).toBe('notAsked');
    expect(bumped(fit, [{ id: 'x', ground: { x: 10, y: -40 }, pixel: { x: 1, y: 1 } }]).verdict).toBe(
      'notAsked',
    );
  });
});
