import { createRequire } from 'node:module';
import { beforeAll, describe, expect, it } from 'vitest';
import { unproject } from '../../../src/ground/camera.ts';
import { fitCourse, type Fit } from '../../../src/ground/fit.ts';
import { inverse, mapped, type Homography } from '../../../src/ground/homography.ts';
import type { Sighting } from '../../../src/ground/model.ts';
import { cameraAt, clicked, picture, ring, spotsIn, truePixel } from '../../unit/ground/scene.ts';

/** As much of OpenCV as is asked here; its own types are not complete. */
interface OpenCv {
  onRuntimeInitialized?: () => void;
  readonly Mat?: unknown;
  readonly CV_64FC2: number;
  matFromArray(rows: number, columns: number, type: number, values: readonly number[]): CvMat;
  findHomography(from: CvMat, to: CvMat, method: number): CvMat;
}
interface CvMat {
  readonly data64F: Float64Array;
  delete(): void;
}

// OpenCV 4.12 as WebAssembly. It must not be awaited: it is a thenable that never settles.
const cv = createRequire(import.meta.url)('@techstark/opencv-js') as OpenCv;

beforeAll(async () => {
  if (cv.Mat === undefined) await new Promise<void>((done) => (cv.onRuntimeInitialized = done));
});

/** OpenCV's findHomography, method 0 (least squares), from the ground to the picture. */
function byOpenCv(sightings: readonly Sighting[]): Homography {
  const list = (points: readonly number[]): CvMat =>
    cv.matFromArray(points.length / 2, 1, cv.CV_64FC2, points);
  const from = list(sightings.flatMap(({ ground }) => [ground.x, ground.y]));
  const to = list(sightings.flatMap(({ pixel }) => [pixel.x, pixel.y]));
  const found = cv.findHomography(from, to, 0);
  const [a = NaN, b = NaN, c = NaN, d = NaN, e = NaN, f = NaN, g = NaN, h = NaN, i = NaN] = found.data64F;
  for (const mat of [from, to, found]) mat.delete();
  return [a, b, c, d, e, f, g, h, i];
}

function fitted(sightings: readonly Sighting[]): Fit {
  const fit = fitCourse(sightings, picture, { lens: 'straight' });
  if (!fit.fitted) throw new Error(fit.why);
  return fit;
}

describe('the fit against OpenCV’s findHomography, method 0, ground to picture', () => {
  const diagonal = Math.hypot(ring.width, ring.length);
  /** Four that hold the ring: four by chance may say little of it. */
  const fourSpots = [
    { x: 8, y: 4 },
    { x: 13, y: 5 },
    { x: 17, y: 33 },
    { x: 4, y: 30 },
  ];
  const cases = [1.6, 3, 5].flatMap((height) =>
    [4, 6, 12, 40].map((count) => [height, count, 60 + count / 4] as const),
  );

  it.each(cases)(
    'camera at %d m, %d points: the same ground to 1e-6 of the ring’s diagonal',
    (height, count, field) => {
      const camera = cameraAt(height, field, { pan: 0.05 });
      let farthest = 0;
      for (let seed = 0; seed < 10; seed++) {
        const spots = count === 4 ? fourSpots : spotsIn(camera, count, 7 * seed + count);
        const sightings = clicked(camera, spots, 1, seed);
        expect(sightings).toHaveLength(count);
        const fit = fitted(sightings);
        expect(fit.points.every((p) => p.used)).toBe(true);
        const back = inverse(byOpenCv(sightings));
        const places = spotsIn(camera, 50, 1000 + seed);
        expect(places).toHaveLength(50);
        for (const spot of places) {
          const pixel = truePixel(camera, spot) ?? { x: NaN, y: NaN };
          const [ours, theirs] = [unproject(fit.camera, pixel), mapped(back, pixel)];
          if (!ours || !theirs) throw new Error('a spot of the ring that is not shown');
          farthest = Math.max(farthest, Math.hypot(ours.x - theirs.x, ours.y - theirs.y));
        }
      }
      expect(farthest).toBeGreaterThan(0);
      expect(farthest / diagonal).toBeLessThan(1e-6);
    },
  );
});
