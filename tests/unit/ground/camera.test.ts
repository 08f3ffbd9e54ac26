import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groundShown, project, shown, unproject, type GroundCamera } from '../../../src/ground/camera.ts';
import { fitCourse } from '../../../src/ground/fit.ts';
import { bent, foldOf, straightened } from '../../../src/ground/lens.ts';
import { cameraAt, clicked, picture, ring, ringCorners, spotsIn, trueGround } from './scene.ts';

/** The model of a simulated camera, exact clicks. */
function cameraOf(height: number, lens = { k1: 0, k2: 0 }): GroundCamera {
  const real = cameraAt(height, 67, { lens });
  const fit = fitCourse(clicked(real, spotsIn(real, 30, 5), 0, 1), picture);
  if (!fit.fitted) throw new Error(fit.why);
  return fit.camera;
}
const lens = { k1: -0.1, k2: 0.02 };
const cameras = [
  ['straight', cameraOf(1.6)],
  ['bending', cameraOf(3, lens)],
] as const;
const inRing = fc.record({
  x: fc.double({ min: 2, max: 18, noNaN: true }),
  y: fc.double({ min: 3, max: 40, noNaN: true }),
});

describe.each(cameras)('a %s camera', (_, camera) => {
  it('takes points to the picture and back', () => {
    fc.assert(
      fc.property(inRing, (p) => {
        const pixel = project(camera, p);
        const back = pixel && unproject(camera, pixel);
        expect(back?.x).toBeCloseTo(p.x, 7);
        expect(back?.y).toBeCloseTo(p.y, 7);
      }),
    );
  });

  it('tells how pixels move with the ground, and the ground with pixels', () => {
    const d = 1e-4;
    fc.assert(
      fc.property(inRing, (p) => {
        const there = shown(camera, p);
        const [px, py] = [project(camera, { x: p.x + d, y: p.y }), project(camera, { x: p.x, y: p.y + d })];
        if (!there || !px || !py) throw new Error('not shown');
        const measured = [
          (px.x - there.pixel.x) / d,
          (py.x - there.pixel.x) / d,
          (px.y - there.pixel.y) / d,
          (py.y - there.pixel.y) / d,
        ];
        measured.forEach((m, i) =>
          expect(Math.abs(m - (there.slope[i] ?? NaN))).toBeLessThan(0.02 + 1e-3 * Math.abs(m)),
        );
        const back = groundShown(camera, there.pixel)?.slope ?? [NaN, NaN, NaN, NaN];
        const [a, b, c, e] = there.slope;
        expect(a * back[0] + b * back[2]).toBeCloseTo(1, 6);
        expect(c * back[0] + e * back[2]).toBeCloseTo(0, 6);
      }),
    );
  });

  it('shows nothing behind itself and no ground above the horizon', () => {
    expect(project(camera, { x: 10, y: -40 })).toBeNull();
    expect(shown(camera, { x: 10, y: -40 })).toBeNull();
    expect(unproject(camera, { x: 960, y: -400 })).toBeNull();
    expect(groundShown(camera, { x: 960, y: -400 })).toBeNull();
    expect(project(camera, { x: NaN, y: 0 })).toBeNull();
    expect(unproject(camera, { x: NaN, y: 0 })).toBeNull();
  });
});

it('agrees with the simulator on where a pixel lies', () => {
  const real = cameraAt(3, 67, { lens: { k1: -0.06, k2: 0 } });
  const fit = fitCourse(clicked(real, [...spotsIn(real, 30, 5)], 0, 1), picture, { area: ringCorners });
  if (!fit.fitted) throw new Error(fit.why);
  for (const pixel of [
    { x: 300, y: 900 },
    { x: 1500, y: 700 },
    { x: 960, y: 500 },
  ]) {
    const [ours, truth] = [unproject(fit.camera, pixel), trueGround(real, pixel)];
    expect(Math.hypot((ours?.x ?? NaN) - truth.x, (ours?.y ?? NaN) - truth.y)).toBeLessThan(
      1e-3 * ring.length,
    );
  }
});

describe('the lens', () => {
  it('bends and straightens again, up to where it folds', () => {
    for (const one of [
      { k1: -0.3, k2: 0 },
      { k1: -0.2, k2: 0.05 },
      { k1: 0.3, k2: 0.1 },
      { k1: 0, k2: 0 },
    ]) {
      const far = Math.min(1.2, 0.999 * foldOf(one));
      for (const r of [0, 0.1, 0.5, far]) {
        const back = straightened(one, bent(one, { x: 0.6 * r, y: -0.8 * r }));
        expect(back?.x).toBeCloseTo(0.6 * r, 6);
        expect(back?.y).toBeCloseTo(-0.8 * r, 6);
      }
    }
  });

  it('shows nothing beyond its fold', () => {
    const barrel = { k1: -0.3, k2: 0 };
    expect(foldOf(barrel)).toBeCloseTo(Math.sqrt(1 / 0.9), 12);
    expect(straightened(barrel, { x: 0.8, y: 0 })).toBeNull();
    expect(foldOf({ k1: 0.1, k2: 0.1 })).toBe(Infinity);
    expect(foldOf({ k1: 0.5, k2: -0.2 })).toBeGreaterThan(1);
  });
});
