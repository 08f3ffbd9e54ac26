import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  pointFor,
  pointsFor,
  pointsOf,
  underlayBy,
  withPoint,
  type KnownPoint,
  type Way,
} from '../../../app/window/course/trace/knownPoints.ts';
import { underlayTransform } from '../../../app/window/course/trace/matrix.ts';
import { toBoard } from '../../../app/window/course/board/camera.ts';
import { pictureToGround } from '../../../src/course/pictureLay.ts';
import { mapped } from '../../../src/ground/homography.ts';

const picture = { width: 4000, height: 3000 };
const lengths = { ring: { width: 40, length: 20 }, between: 20, shape: Math.SQRT2 };
const corners = [
  { x: 0.12, y: 0.88 },
  { x: 0.93, y: 0.8 },
  { x: 0.78, y: 0.21 },
  { x: 0.24, y: 0.3 },
];
const ends = [
  { x: 0.2, y: 0.8 },
  { x: 0.6, y: 0.8 },
];

const clickedOn = (
  points: readonly KnownPoint[],
  places: readonly { x: number; y: number }[],
): readonly KnownPoint[] =>
  places.reduce((now, at) => {
    const point = pointFor(now, at, picture);
    return point ? withPoint(now, point.id, at) : now;
  }, points);

describe('known points', () => {
  it.each<[Way, readonly { x: number; y: number }[]]>([
    ['ring', corners],
    ['length', ends],
    ['sheet', [...corners, ...ends]],
  ])('lay a picture by %s, one click each', (way, places) => {
    let points = pointsFor(way);
    expect(underlayBy(way, points, lengths, picture, 0.5)).toBeNull();
    points = clickedOn(points, places.slice(0, -1));
    expect(points.filter((p) => !p.set)).toHaveLength(1);
    expect(underlayBy(way, points, lengths, picture, 0.5)).toBeNull();
    points = clickedOn(points, places.slice(-1));
    expect(underlayBy(way, points, lengths, picture, 0.5)).not.toBeNull();
  });

  it('take corners in any order, the ends of a length in theirs, and mend the nearest after that', () => {
    const mixed = [2, 0, 3, 1].flatMap((i) => corners[i] ?? []);
    const one = underlayBy('ring', clickedOn(pointsFor('ring'), mixed), lengths, picture, 0.5);
    const other = underlayBy('ring', clickedOn(pointsFor('ring'), corners), lengths, picture, 0.5);
    expect(one).toEqual(other);
    const back = [...ends].reverse();
    const [first] = clickedOn(pointsFor('length'), back);
    expect(first?.at).toEqual(back[0]);
    const mended = clickedOn(clickedOn(pointsFor('ring'), corners), [{ x: 0.13, y: 0.86 }]);
    expect(mended.map((p) => p.at)).toContainEqual({ x: 0.13, y: 0.86 });
    expect(mended.map((p) => p.at)).not.toContainEqual(corners[0]);
  });

  it('say nothing where they lie on each other, and stay near the picture', () => {
    const at = { x: 0.5, y: 0.5 };
    expect(underlayBy('length', clickedOn(pointsFor('length'), [at, at]), lengths, picture, 0.5)).toBeNull();
    expect(
      underlayBy('ring', clickedOn(pointsFor('ring'), [at, at, at, at]), lengths, picture, 0.5),
    ).toBeNull();
    const [far] = withPoint(pointsFor('length'), 'end0', { x: 99, y: -99 });
    expect(far?.at).toEqual({ x: 3, y: -2 });
  });

  it('begin where they were when a picture is laid again', () => {
    const underlay = underlayBy('ring', clickedOn(pointsFor('ring'), corners), lengths, picture, 0.5);
    if (!underlay) throw new Error('no lay');
    expect(underlayBy('ring', pointsOf(underlay), lengths, picture, 0.5)).toEqual(underlay);
  });
});

describe('the transform of the picture under the board', () => {
  it('shows each point of the picture where the camera sees its place on the ground', () => {
    const underlay = underlayBy('ring', clickedOn(pointsFor('ring'), corners), lengths, picture, 0.5);
    if (!underlay) throw new Error('no lay');
    const shown = { width: 1000, height: 750 };
    const size = { width: 800, height: 500 };
    fc.assert(
      fc.property(
        fc.record({
          x: fc.double({ min: -20, max: 60, noNaN: true }),
          y: fc.double({ min: -20, max: 40, noNaN: true }),
          scale: fc.double({ min: 2, max: 300, noNaN: true }),
        }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        (camera, x, y) => {
          const css = underlayTransform(underlay, picture, shown, camera, size);
          const m = css.slice('matrix3d('.length, -1).split(',').map(Number);
          // CSS Transforms 2, 13.1: columns first, applied to (x, y, 0, 1), then divided by the last coordinate.
          const [px, py] = [x * shown.width, y * shown.height];
          const row = (i: number): number => (m[i] ?? NaN) * px + (m[4 + i] ?? NaN) * py + (m[12 + i] ?? NaN);
          const lay = pictureToGround(underlay, picture);
          const ground = lay && mapped(lay, { x, y });
          if (!ground) throw new Error('not on the ground');
          const wanted = toBoard(camera, size, ground);
          expect(row(3)).toBeGreaterThan(0);
          const far = 1 + Math.hypot(wanted.x, wanted.y);
          expect(Math.hypot(row(0) / row(3) - wanted.x, row(1) / row(3) - wanted.y) / far).toBeLessThan(1e-6);
        },
      ),
    );
  });
});
