import { expect, it } from 'vitest';
import type { Course } from '../../../../src/course/course.ts';
import { CourseFit } from '../../../../src/ground/courseFit.ts';
import { knownPoints } from '../../../../src/ground/knownPoints.ts';
import { analyse } from '../../../../src/review/analyse.ts';
import { measuredLine } from '../../../../src/review/compare/measuredLine.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import type { Mark } from '../../../../src/review/marks.ts';
import { Track } from '../../../../src/track/track.ts';
import { cameraAt, picture, ring, truePixel } from '../../ground/scene.ts';
import { courseOf, review, steadyClocks, took } from '../example.ts';

const rate = 100;
const camera = cameraAt(3, 67);
const clocks = steadyClocks(rate);
const plain = courseOf('barJump', 'barJump', 'barJump', 'barJump');
const course: Course = {
  ...plain,
  ring,
  obstacles: plain.obstacles.map((o, i) => ({
    ...o,
    stand: { x: 8 + (i % 2) * 4, y: 8 + 6 * i, headingDegrees: 90 },
  })),
};

/** Straight up the ring at 5 m/s, by frame. */
const whereAt = (frame: number) => ({ x: 10, y: 5 + (5 * frame) / rate });
const onPicture = (p: { readonly x: number; readonly y: number }) => {
  const pixel = truePixel(camera, p);
  if (!pixel) throw new Error('out of the picture');
  return { x: pixel.x / picture.width, y: pixel.y / picture.height };
};
const fit = CourseFit.parse({
  id: 'fit',
  footageId: 'film',
  points: knownPoints(course).flatMap(({ part, at }) =>
    truePixel(camera, at) ? [{ part, at: onPicture(at), pts: 0 }] : [],
  ),
});
const clicks = (from: number, to: number, who: Partial<Track> = {}): Track =>
  Track.parse({
    id: `t${from}-${to}-${who.who ?? 'dog'}`,
    footageId: 'film',
    who: 'dog',
    point: 'leftFrontPaw',
    marks: Array.from({ length: Math.floor((to - from) / 20) + 1 }, (_, i) => from + 20 * i).map((pts) => ({
      pts,
      at: onPicture(whereAt(pts)),
      contact: 'ground',
    })),
    ...who,
  });
const marks: Mark[] = [100, 200, 300, 400].flatMap((f, i) => [
  took(i + 1, 'in', f - 30),
  took(i + 1, 'out', f),
]);

const measured = (part: Partial<ReviewState>) => {
  const state = { ...review(course, marks), fits: [fit], ...part };
  const pictures = new Map([['film', picture]]);
  return measuredLine(state, clocks, analyse(state, clocks), { course, pictures, seed: 1 });
};

it('is the clicked way on the ground, with the length of every stretch that it has from end to end', () => {
  const lengths = measured({ tracks: [clicks(60, 460)] })?.lengths;
  expect([...(lengths?.keys() ?? [])]).toEqual([2, 3, 4]);
  for (const length of lengths?.values() ?? []) {
    // A second at 5 m/s.
    expect(Math.abs(length.value - 5)).toBeLessThanOrEqual(length.plusMinus);
    expect(length.plusMinus).toBeLessThan(1);
  }
  // From beyond the out of 2 on: the stretches to 2 and 3 are not told.
  expect([...(measured({ tracks: [clicks(220, 460)] })?.lengths.keys() ?? [])]).toEqual([4]);
});

it('follows the point that was clicked most, of the dog, in the run', () => {
  const most = clicks(60, 460);
  const other = clicks(60, 120, { point: 'nose' });
  expect(measured({ tracks: [other, most] })?.line.to).toBeCloseTo(4.6, 2);
  const handler = clicks(60, 460, { who: 'handler', point: 'hips' });
  expect(measured({ tracks: [handler] })).toBeNull();
  expect(measured({ tracks: [clicks(60, 460, { during: 'wait' })] })).toBeNull();
});

it('is nothing without clicks, without a fit that holds, or with one click', () => {
  expect(measured({ tracks: [] })).toBeNull();
  expect(measured({ tracks: [clicks(60, 460)], fits: [] })).toBeNull();
  const few = { ...fit, points: fit.points.slice(0, 2) };
  expect(measured({ tracks: [clicks(60, 460)], fits: [few] })).toBeNull();
  expect(
    measured({ tracks: [clicks(60, 460)], fits: [{ ...fit, span: { from: 900, to: 950 } }] }),
  ).toBeNull();
  expect(measured({ tracks: [clicks(60, 60)] })).toBeNull();
});
