import { describe, expect, it } from 'vitest';
import { courseSeen, errorSeen } from '../../../src/ground/seen.ts';
import { createGround, type Ground } from '../../../app/window/review/ground/ground.ts';
import { bringInSight } from '../../../app/window/review/ground/inSight.ts';
import { groundOf, type Scene } from '../../../app/window/review/ground/scene.ts';
import { tellsOf } from '../../../app/window/review/ground/tells.ts';
import { countedCourse, emptyCourse, type Course } from '../../../src/course/course.ts';
import { projectAbove } from '../../../src/ground/above.ts';
import { errorMap } from '../../../src/ground/groundError.ts';
import { pinholeOf } from '../../../src/ground/pinhole.ts';
import { mostFitPoints } from '../../../src/ground/courseFit.ts';
import { groundWords } from '../../../src/words/groundPage.ts';
import { seenAt } from '../../../scripts/simulator/camera/path.ts';
import { cameraAt, picture, ring, truePixel } from '../ground/scene.ts';
import { bench, emptyReview, type Bench } from './bench.ts';

const course: Course = {
  ...emptyCourse(),
  ring,
  obstacles: [
    [8, 6, 80],
    [13, 9, 60],
    [6, 16, 100],
    [14, 20, 80],
  ].map(([x = 0, y = 0, headingDegrees = 0], i) => ({
    id: `o${i + 1}`,
    kind: 'barJump',
    nickname: '',
    stand: { x, y, headingDegrees },
  })),
  steps: [1, 2, 3, 4].map((number) => ({ number, obstacleId: `o${number}`, direction: 'forward' })),
};
const camera = cameraAt(3, 67);

interface Stand extends Bench {
  readonly ground: Ground;
  scene(): Scene;
  /** Clicks the point at hand where a camera shows it, off by so many pixels. */
  click(off?: number, by?: typeof camera): string;
  /** Clicks points until so many are clicked; skips those that are not in the picture. */
  clickTo(count: number): void;
  said(): string;
}

function stand(of: Course = course): Stand {
  const b = bench(emptyReview(of));
  const ground = createGround(b.desk, {
    course: () => b.review().course,
    dialect: () => 'british',
    picture: () => picture,
  });
  const scene = (): Scene => {
    const now = ground.scene();
    if (typeof now === 'string') throw new Error(now);
    return now;
  };
  const atHand = () => scene().known.find((k) => k.id === ground.store.getState().part);
  const click: Stand['click'] = (off = 0, by = camera) => {
    const point = atHand();
    const seen = point && truePixel(by, point.at);
    if (!seen) throw new Error(`not in the picture: ${point?.name ?? 'nothing'}`);
    ground.click({ x: (seen.x + off) / picture.width, y: seen.y / picture.height });
    return point.id;
  };
  const clickTo = (count: number): void => {
    for (let i = 0; i < 40 && scene().clip.counted.size < count; i++) {
      const point = atHand();
      if (point && truePixel(camera, point.at)) click();
      else ground.skip();
    }
  };
  return { ...b, ground, scene, click, clickTo, said: () => b.desk.store.getState().said.text };
}

describe('clicking what the map knows', () => {
  it('asks for one point after another, and from four on the course lies over the footage', () => {
    const s = stand();
    s.ground.open();
    expect(s.desk.store.getState()).toMatchObject({ mode: { name: 'ground' }, tab: 'ground' });
    // The outer ends of one piece, then a piece far from it.
    expect([s.click(), s.click()]).toEqual(['leftWing o1', 'rightWing o1']);
    expect(s.ground.store.getState().part).toMatch(/ o[34]$/);
    expect(s.scene().clip.result).toMatchObject({ fitted: false, why: 'tooFew', missing: 2 });
    s.clickTo(4);
    const { fit, points } = s.scene();
    if (!fit) throw new Error('no fit');
    for (const p of points.filter((p) => p.state === 'proposed')) {
      const seen = truePixel(camera, p.known.at);
      expect((p.at?.x ?? 0) * picture.width).toBeCloseTo(seen?.x ?? NaN, 2);
      expect((p.at?.y ?? 0) * picture.height).toBeCloseTo(seen?.y ?? NaN, 2);
    }
    expect(points.filter((p) => p.state === 'proposed').length).toBeGreaterThan(8);
    expect(s.labels[0]).toBe(groundWords.acts.set('left wing foot of 1, bar jump'));
    expect(s.review().fits).toHaveLength(1);
  });

  it('a point is moved, agreed to, removed and passed over', () => {
    const s = stand();
    s.ground.open();
    s.clickTo(5);
    const agreed = s.ground.store.getState().part;
    s.ground.agree();
    const points = () => s.review().fits[0]?.points ?? [];
    expect(points().at(-1)?.agreed).toBe(true);
    expect(s.scene().points.find((p) => p.known.id === agreed)?.state).toBe('agreed');
    // What is agreed to is no evidence; clicked, it is.
    expect(s.scene().clip.counted.size).toBe(5);
    s.ground.take(agreed ?? '');
    s.click();
    expect(s.scene().clip.counted.size).toBe(6);
    expect(points()).toHaveLength(6);
    s.ground.take('leftWing o1');
    s.click(3);
    expect(s.labels.at(-1)).toBe(groundWords.acts.moved('left wing foot of 1, bar jump'));
    s.ground.take('leftWing o1');
    s.ground.remove();
    expect(points()).toHaveLength(5);
    expect(s.ground.store.getState().part).toBe('leftWing o1');
    s.ground.remove();
    expect(s.said()).toBe(groundWords.said.notClicked);
    s.ground.skip();
    expect(s.ground.store.getState().skipped).toEqual(['leftWing o1']);
    s.ground.previous();
    expect(s.ground.store.getState()).toMatchObject({ part: 'leftWing o1', skipped: [] });
  });

  it('goes by keys: the cross-hair moves by one pixel or ten and stays on the picture', () => {
    const s = stand();
    s.ground.open();
    s.ground.over({ x: 0.5, y: 0.5 });
    s.ground.move(1, 0);
    s.ground.move(0, -1, true);
    expect(s.ground.store.getState().at.x * picture.width).toBeCloseTo(picture.width / 2 + 1, 6);
    expect(s.ground.store.getState().at.y * picture.height).toBeCloseTo(picture.height / 2 - 10, 6);
    s.ground.toggleStep();
    for (let i = 0; i < 300; i++) s.ground.move(1, 1);
    expect(s.ground.store.getState().at).toEqual({ x: 1, y: 1 });
    s.ground.set();
    expect(s.review().fits[0]?.points[0]?.at).toEqual({ x: 1, y: 1 });
    expect(s.ground.letGo()).toBe(true);
    expect(s.ground.letGo()).toBe(false);
    s.ground.set();
    expect(s.said()).toBe(groundWords.said.noneAtHand);
  });

  it('a point is dragged; a drag broken off leaves it where it was', () => {
    const s = stand();
    s.ground.open();
    s.clickTo(6);
    const p = s.scene().points.find((q) => q.known.id === 'leftWing o1');
    if (!p?.at) throw new Error('not clicked');
    const reach = { x: 0.01, y: 0.01 };
    expect(s.ground.grip.take({ x: p.at.x + 0.3, y: 0.02 }, reach)).toBe(false);
    const before = s.acts.length;
    expect(s.ground.grip.take({ x: p.at.x + 0.001, y: p.at.y }, reach)).toBe(true);
    s.ground.grip.drag({ x: 0.4, y: 0.4 });
    s.ground.grip.drop(null);
    expect(s.acts).toHaveLength(before);
    expect(s.ground.store.getState().at).toEqual(p.at);
    s.ground.grip.take(p.at, reach);
    s.ground.grip.drag({ x: 0.4, y: 0.4 });
    s.ground.grip.drop({ x: p.at.x + 0.002, y: p.at.y });
    expect(s.acts).toHaveLength(before + 1);
    expect(s.ground.store.getState().part).toBe('leftWing o1');
  });

  it('a wrong click is set aside, named and taken in hand', () => {
    const s = stand();
    s.ground.open();
    s.clickTo(9);
    s.ground.take('leftWing o2');
    s.click(60);
    expect(s.scene().points.find((p) => p.known.id === 'leftWing o2')?.state).toBe('aside');
    s.ground.worst();
    expect(s.ground.store.getState().part).toBe('leftWing o2');
  });

  it('refuses more points than a fit can hold', () => {
    const s = stand();
    const point = (pts: number) => ({
      part: { obstacleId: 'o1', part: 'leftWing' as const },
      at: { x: 0.5, y: 0.5 },
      pts,
    });
    const body = {
      id: 'x',
      footageId: 'f1',
      points: Array.from({ length: mostFitPoints }, (_, i) => point(2 * i + 2)),
    };
    s.desk.do({ label: '', changes: [{ kind: 'fit', id: 'x', body }] });
    s.ground.open();
    s.click();
    expect(s.said()).toBe(groundWords.said.full);
  });
});

describe('one stretch alone', () => {
  it('asks only for its points, in few clicks, and says the error of its ground', () => {
    const s = stand();
    s.ground.open();
    s.ground.setStretch({ from: 2, to: 3 });
    expect(new Set(s.scene().points.map((p) => p.known.part.obstacleId))).toEqual(new Set(['o2', 'o3']));
    s.clickTo(8);
    expect(s.acts).toHaveLength(8);
    const { fit } = s.scene();
    if (!fit) throw new Error('no fit');
    const told = tellsOf(s.scene(), fit, 2);
    expect(told.along?.least).toBeGreaterThan(1);
    expect(told.along?.most).toBeLessThan(40);
    expect(told.here?.centimetres).toBeLessThanOrEqual(told.along?.most ?? 0);
    // Far from its points the same fit tells less.
    expect(tellsOf({ ...s.scene(), stretch: null }, fit, 4).here?.centimetres).toBeGreaterThan(
      told.here?.centimetres ?? Infinity,
    );
  });

  it('what was clicked elsewhere still counts, and is shown', () => {
    const s = stand();
    s.ground.open();
    s.clickTo(6);
    s.ground.setStretch({ from: 4, to: 4 });
    const shown = [...s.scene().points, ...s.scene().others];
    expect(shown.filter((p) => p.state === 'clicked')).toHaveLength(6);
  });
});

describe('a camera that was bumped', () => {
  const moved = cameraAt(3, 67, { pan: 0.01 });
  it('is told by clicks on a later frame, and fitted anew from there; before it the old fit holds', () => {
    const s = stand();
    s.ground.refit();
    expect(s.said()).toBe(groundWords.said.nothingToRefit);
    s.ground.open();
    s.clickTo(8);
    s.at(500);
    for (const id of ['leftWing o1', 'rightWing o1', 'leftWing o4']) {
      s.ground.take(id);
      s.click(0, moved);
    }
    expect(s.scene()).toMatchObject({ fit: null, movedHere: true });
    s.at(499);
    expect(s.scene().fit).not.toBeNull();
    s.at(500);
    s.ground.refit();
    expect(s.review().fits.map((f) => [f.span?.from, f.points.length])).toEqual([
      [undefined, 8],
      [1000, 3],
    ]);
    s.ground.refit();
    expect(s.said()).toBe(groundWords.said.begins);
    s.ground.take('rightWing o4');
    s.click(0, moved);
    expect(s.scene().fit).not.toBeNull();
    s.at(499);
    expect(s.scene().held?.points).toHaveLength(8);
    s.ground.startOver();
    expect(s.review().fits).toHaveLength(1);
    expect(s.scene().held).toBeNull();
  });
});

describe('while the run plays', () => {
  it('the scene stays the same one from frame to frame, until a frame is passed on which something was clicked', () => {
    const s = stand();
    s.at(10);
    s.ground.open();
    s.clickTo(6);
    const first = s.scene();
    for (const frame of [11, 12, 900]) {
      s.at(frame);
      expect(s.scene()).toBe(first);
    }
    s.at(9);
    expect(s.scene()).not.toBe(first);
    expect(s.scene().fit).toBe(first.fit);
    s.ground.setStretch({ from: 1, to: 2 });
    expect(s.scene().points).toHaveLength(8);
  });
});

describe('what the picture shows of the course', () => {
  it('is drawn where the camera sees it and nowhere else', () => {
    const s = stand();
    s.ground.open();
    s.clickTo(8);
    const { fit } = s.scene();
    if (!fit) throw new Error('no fit');
    const shapes = courseSeen(course, fit.camera);
    expect(shapes.filter((x) => x.shape === 'number').map((x) => x.text)).toEqual(['1', '2', '3', '4']);
    const bars = shapes.flatMap((x) => (x.shape === 'line' && x.as === 'bar' ? [x.points] : []));
    expect(bars).toHaveLength(4);
    const left = s.scene().known.find((k) => k.id === 'leftUpright o1');
    const seen = left && truePixel(camera, left.at);
    const ends = [bars[0]?.at(0), bars[0]?.at(-1)];
    expect(
      Math.min(
        ...ends.map((e) => Math.hypot((e?.x ?? 0) - (seen?.x ?? NaN), (e?.y ?? 0) - (seen?.y ?? NaN))),
      ),
    ).toBeLessThan(0.05);
    for (const x of shapes)
      if (x.shape !== 'number')
        for (const p of x.points) expect(Math.abs(p.x / picture.width - 0.5)).toBeLessThan(1.5);
    const map = errorMap(fit, groundOf(course), 1);
    const patches = errorSeen(map, fit.camera);
    expect(patches.length).toBe(map.centimetres.filter((c) => c !== null).length);
    // Farther away a click tells less.
    const band = (row: number): number =>
      Math.max(...patches.filter((p) => p.row === row).map((p) => p.band));
    expect(band(30)).toBeGreaterThan(band(6));
  });

  it('what stands up from the ground stands upright over its foot, as the simulator sees it', () => {
    const s = stand();
    s.ground.open();
    s.clickTo(12);
    const { fit } = s.scene();
    const lens = fit && pinholeOf(fit)?.at;
    if (!fit || !lens) throw new Error('no fit');
    const tall = { ...course, obstacles: course.obstacles.map((o) => ({ ...o, sizes: { height: 0.6 } })) };
    const up = courseSeen(tall, fit.camera, lens).flatMap((x) =>
      x.shape === 'line' && x.upright ? [x] : [],
    );
    const flat = courseSeen(tall, fit.camera).filter((x) => x.shape === 'line' && x.upright);
    expect(flat).toEqual([]);
    const foot = s.scene().known.find((k) => k.id === 'leftUpright o1')?.at ?? { x: NaN, y: NaN };
    const near = (z: number, list: readonly { x: number; y: number }[]): number => {
      const seen = seenAt(camera, { ...foot, z }, 0);
      return Math.min(...list.map((p) => Math.hypot(p.x - (seen?.u ?? NaN), p.y - (seen?.v ?? NaN))));
    };
    const ends = (as: string) => up.flatMap((x) => (x.as === as ? [x.points.at(0), x.points.at(-1)] : []));
    const found = (as: string) => ends(as).flatMap((p) => (p ? [p] : []));
    expect(near(0, found('pole'))).toBeLessThan(1);
    expect(near(1, found('pole'))).toBeLessThan(2);
    expect(near(0.6, found('bar'))).toBeLessThan(2);
    // Nothing that is as high as the lens can be told.
    expect(projectAbove(fit.camera, lens, { x: 5, y: 5, z: lens.z })).toBeNull();
  });

  it('a higher stand buys something, and is said of the camera’s own height', () => {
    const s = stand();
    s.ground.open();
    s.clickTo(12);
    const { fit } = s.scene();
    if (!fit) throw new Error('no fit');
    const { higher, raised } = tellsOf(s.scene(), fit, null);
    // Five centimetres too high from 3 m: by its distance over the height, some 25 m over 3 m here.
    expect(raised).toBeGreaterThan(20);
    expect(raised).toBeLessThan(70);
    expect(higher?.now).toBeCloseTo(3, 1);
    expect(higher?.centimetres).toBeGreaterThan(0);
    expect(higher?.then).toBeCloseTo(4.5, 1);
  });
});

describe('under the magnifier', () => {
  const looking = (zoom: number, places: { pts: number; x: number; y: number }[] = []) => {
    const moved: unknown[] = [];
    const look = {
      magnifier: () => ({ zoom, x: 0.5, y: 0.5, places }),
      place: () => ({ x: 0.5, y: 0.5 }),
      moveTo: (to: unknown) => void moved.push(to),
    };
    return { look, moved };
  };
  it('what is aimed at comes in sight; a magnifier that follows the dog, or shows all, stays', () => {
    const far = { x: 0.7, y: 0.5 };
    const [whole, near, follows] = [looking(1), looking(4), looking(4, [{ pts: 0, x: 0.5, y: 0.5 }])];
    for (const { look } of [whole, near, follows]) bringInSight(look, far);
    expect([whole.moved, near.moved, follows.moved]).toEqual([[], [far], []]);
    bringInSight(near.look, { x: 0.55, y: 0.5 });
    expect(near.moved).toHaveLength(1);
    bringInSight(near.look, { x: 0.55, y: 0.5 }, 'middle');
    expect(near.moved).toHaveLength(2);
  });
});

describe('where there is nothing to fit', () => {
  it('says what it takes', () => {
    const numbers = stand(countedCourse(5));
    expect(numbers.ground.scene()).toBe('noCourse');
    numbers.ground.open();
    expect(numbers.ground.store.getState().part).toBeNull();
    const none = bench({ ...emptyReview(course), footage: [] }, new Map());
    const ground = createGround(none.desk, {
      course: () => course,
      dialect: () => 'british',
      picture: () => null,
    });
    expect(ground.scene()).toBe('noFootage');
    ground.open();
    ground.refit();
    ground.worst();
    expect(none.acts).toEqual([]);
  });
});
