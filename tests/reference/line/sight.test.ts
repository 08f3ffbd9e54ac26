import Flatten from '@flatten-js/core';
import { expect, test } from 'vitest';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { hidersOf } from '../../../src/line/reading/hiders.ts';
import { asMetFrom, offHeading, openingOf, straightOnTo } from '../../../src/line/reading/opening.ts';
import { hiddenOf } from '../../../src/line/reading/sight.ts';
import { courseOf } from '../../unit/course/courses.ts';

/*
 * Against a general-purpose geometry library, @flatten-js/core (npm, MIT): shadows are found there by asking, between
 * every two rays that touch a corner, whether the ray in the middle meets anything. Ours clips polygons instead.
 */

const scenes = 300;

/** Numbers from 0 to 1 that are the same in each run (Numerical Recipes' linear congruence, 32 bits). */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const kinds: readonly ObstacleKind[] = ['barJump', 'spread', 'panel', 'tunnel', 'aFrame', 'dogWalk', 'table'];

function scene(seed: number) {
  const random = seeded(seed * 7919 + 1);
  for (let i = 0; i < 10; i++) random();
  const point = (): GroundPoint => ({ x: random() * 24, y: random() * 16 });
  const course = courseOf(
    Array.from({ length: 7 }, () => {
      const { x, y } = point();
      return {
        kind: kinds[Math.floor(random() * kinds.length)] ?? 'tunnel',
        at: [x, y, random() * 360 - 180],
      };
    }),
  );
  return { course, eye: point(), a: point(), b: point(), headingDegrees: random() * 360 - 180 };
}

const pt = (p: GroundPoint) => new Flatten.Point(p.x, p.y);
const at = (a: GroundPoint, b: GroundPoint, t: number): GroundPoint => ({
  x: a.x + t * (b.x - a.x),
  y: a.y + t * (b.y - a.y),
});

/** The library's shape of a convex piece of ground. */
const shapeOf = (ground: readonly GroundPoint[]) =>
  ground.length === 2
    ? new Flatten.Segment(pt(ground[0] as GroundPoint), pt(ground[1] as GroundPoint))
    : new Flatten.Polygon(ground.map(pt));

function hiddenShare(eye: GroundPoint, a: GroundPoint, b: GroundPoint, grounds: readonly GroundPoint[][]) {
  const goal = new Flatten.Segment(pt(a), pt(b));
  const shapes = grounds
    .map((ground) => ({ ground, shape: shapeOf(ground) }))
    .filter(({ shape }) => !(shape instanceof Flatten.Polygon && shape.contains(pt(eye))));
  const rays = shapes.flatMap(({ ground, shape }) => [
    ...ground.flatMap((corner) => new Flatten.Line(pt(eye), pt(corner)).intersect(goal)),
    ...shape.intersect(goal),
  ]);
  const stops = [0, 1, ...rays.map((p) => p.distanceTo(pt(a))[0] / goal.length)].sort((m, n) => m - n);
  let share = 0;
  for (const [i, to] of stops.entries()) {
    const since = stops[i - 1] ?? 0;
    if (to - since < 1e-9) continue;
    const ray = new Flatten.Segment(pt(eye), pt(at(a, b, (since + to) / 2)));
    if (shapes.some(({ shape }) => shape.intersect(ray).length > 0)) share += to - since;
  }
  return share;
}

test('the share of a line that is hidden, on random courses', () => {
  let some = 0;
  for (let seed = 0; seed < scenes; seed++) {
    const { course, eye, a, b } = scene(seed);
    const hiders = hidersOf(course, 0.5);
    const ours = hiddenOf(eye, a, b, hiders).share;
    const theirs = hiddenShare(
      eye,
      a,
      b,
      hiders.map((h) => [...h.ground]),
    );
    expect(Math.abs(ours - theirs), `seed ${seed}: ours ${ours}, theirs ${theirs}`).toBeLessThan(1e-4);
    if (theirs > 0.01 && theirs < 0.99) some++;
  }
  // The scenes would show nothing if most lines lay wholly in sight.
  expect(some).toBeGreaterThan(scenes / 4);
});

test('how far something lies off a heading, and where the straight way on meets it', () => {
  let met = 0;
  for (let seed = 0; seed < scenes; seed++) {
    const { course, eye, a, headingDegrees } = scene(seed);
    const pose = { ...eye, headingDegrees };
    const h = (headingDegrees * Math.PI) / 180;
    const ahead = new Flatten.Vector(Math.cos(h), Math.sin(h));
    const turned = (ahead.angleTo(new Flatten.Vector(pt(eye), pt(a))) * 180) / Math.PI;
    expect(offHeading(pose, a)).toBeCloseTo(turned > 180 ? turned - 360 : turned, 5);

    for (const { kind, sizes, stand } of course.obstacles) {
      if (!stand) continue;
      const opening = openingOf({ kind, sizes }, stand, 'forward');
      // What may be entered from any side shows her its breadth, wherever she looks from.
      const seen = asMetFrom(pose, opening);
      const way = new Flatten.Segment(pt(eye), pt(eye).translate(ahead.multiply(100)));
      const [hit] = way.intersect(new Flatten.Segment(pt(seen.left), pt(seen.right)));
      const ours = straightOnTo(pose, opening);
      expect(ours.degrees === 0, `seed ${seed}, ${kind}`).toBe(hit !== undefined);
      if (!hit) continue;
      met++;
      expect(ours.point.x).toBeCloseTo(hit.x, 6);
      expect(ours.point.y).toBeCloseTo(hit.y, 6);
      expect(ours.metres).toBeCloseTo(hit.distanceTo(pt(eye))[0], 6);
    }
  }
  expect(met).toBeGreaterThan(20);
});
