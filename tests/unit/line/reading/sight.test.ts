import { expect, test } from 'vitest';
import type { Obstacle } from '../../../../src/course/course.ts';
import { hidersOf } from '../../../../src/line/reading/hiders.ts';
import { hiddenOf } from '../../../../src/line/reading/sight.ts';
import { courseOf } from '../../course/courses.ts';

const eyes = 0.5;
const eye = { x: 0, y: 0 };
const onLine = (metres: number) =>
  [
    { x: metres, y: -1 },
    { x: metres, y: 1 },
  ] as const;

/** What a piece hides, from the origin, of two metres of ground ten metres along x. */
const hiddenBy = (
  kind: Obstacle['kind'],
  at: readonly [number, number, number],
  more: Partial<Obstacle> = {},
  height = eyes,
) => hiddenOf(eye, ...onLine(10), hidersOf(courseOf([{ kind, at, ...more }]), height));

test('a wing throws its shadow by similar triangles', () => {
  // Half the way there, so that shadows are twice as wide: the wing from 0.65 to 1.15 reaches beyond the line's end.
  const { share, by } = hiddenBy('barJump', [5, -0.65, 0]);
  expect(share).toBeCloseTo(1 / 2, 5);
  expect(by.map((b) => b.hider.part)).toEqual(['wing']);
});

test('bars, poles, tyres, long jumps and unnamed pieces are looked through', () => {
  for (const kind of ['weavePoles', 'tyre', 'longJump', 'unknown'] as const)
    expect(hiddenBy(kind, [5, 0, 0]).share, kind).toBe(0);
  expect(hiddenBy('barJump', [5, 0, 0], { sizes: { wings: false } }).share).toBe(0);
});

test('what lies behind, beyond or beside hides nothing', () => {
  for (const at of [
    [-5, 0, 90],
    [14, 0, 90],
    [5, 4, 0],
  ] as const)
    expect(hiddenBy('tunnel', at).share).toBe(0);
});

test('a tunnel across the view hides all from a low dog and nothing from one that looks over it', () => {
  expect(hiddenBy('tunnel', [5, 0, 90]).share).toBeCloseTo(1, 9);
  expect(hiddenBy('tunnel', [5, 0, 90], {}, 0.7).share).toBe(0);
});

test('an A-frame hides where it is higher than her eyes, its ends do not', () => {
  // Its length on the ground is 4.20 m; with 1.70 m at the top it is above 0.5 m for 2.96 m of them.
  expect(hiddenBy('aFrame', [5, 0, 90]).share).toBeCloseTo(1, 9);
  expect(hiddenBy('aFrame', [5, 2, 90]).share).toBeLessThan(0.9);
  expect(hiddenBy('aFrame', [9, 2.4, 90]).share).toBeLessThan(0.2);
  expect(hiddenBy('aFrame', [9, 3, 90]).share).toBe(0);
});

test('a dog walk hides only where a ramp is about as high as her eyes', () => {
  expect(hiddenBy('dogWalk', [5, 0, 90]).share).toBe(0);
  const ramp = hiddenBy('dogWalk', [9, 4, 90]);
  expect(ramp.share).toBeGreaterThan(0.3);
  expect(ramp.share).toBeLessThan(0.95);
});

test('a low panel is looked over, a high one is not', () => {
  expect(hiddenBy('panel', [5, 0, 0], { sizes: { height: 0.3, wings: false } }).share).toBe(0);
  expect(hiddenBy('panel', [5, 0, 0], { sizes: { height: 0.6, wings: false } }).share).toBeCloseTo(1, 5);
});

test('two shadows that overlap count once', () => {
  const twice = courseOf([
    { kind: 'tunnel', at: [5, 2, 90] },
    { kind: 'tunnel', at: [6, 2, 90] },
  ]);
  const hiders = hidersOf(twice, eyes);
  const each = hiders.map((h) => hiddenOf(eye, ...onLine(10), [h]).share);
  const both = hiddenOf(eye, ...onLine(10), hiders);
  expect(both.share).toBeLessThan(each.reduce((a, b) => a + b, 0));
  expect(both.share).toBeGreaterThanOrEqual(Math.max(...each) - 1e-12);
});

test('a line seen end on, or a thing the eye stands on, is told as it is', () => {
  expect(hiddenOf(eye, { x: 3, y: 0 }, { x: 5, y: 0 }, []).share).toBe(1);
  const mouth = courseOf([{ kind: 'tunnel', at: [-2.5, 0, 0] }]);
  expect(hiddenOf(eye, ...onLine(10), hidersOf(mouth, eyes)).share).toBe(0);
});
