import { describe, expect, it } from 'vitest';
import { countedCourse, type Course } from '../../../src/course/course.ts';
import {
  cornersInOrder,
  layBy,
  pictureToGround,
  standingWhereClicked,
  turnedByQuarter,
} from '../../../src/course/pictureLay.ts';
import type { GroundPoint } from '../../../src/course/points.ts';
import { Underlay, type NearPicture } from '../../../src/course/underlay.ts';
import { homography, mapped, type Homography } from '../../../src/ground/homography.ts';

const picture = { width: 4000, height: 3000 };
const ring = { width: 40, length: 20 };
type Four = readonly [NearPicture, NearPicture, NearPicture, NearPicture];

/** A photo of a ring of 40 by 20 m, tilted: where its corners (0,0), (40,0), (40,20), (0,20) lie on the picture. */
const seen: Four = [
  { x: 0.12, y: 0.88 },
  { x: 0.93, y: 0.8 },
  { x: 0.78, y: 0.21 },
  { x: 0.24, y: 0.3 },
];
const ground: readonly GroundPoint[] = [
  { x: 0, y: 0 },
  { x: 40, y: 0 },
  { x: 40, y: 20 },
  { x: 0, y: 20 },
];
const camera = homography(ground.map((from, i) => ({ from, to: seen[i] ?? from })));
const photographed = (p: GroundPoint): NearPicture => {
  const at = camera && mapped(camera, p);
  if (!at) throw new Error('not on the picture');
  return at;
};
const onGround = (lay: Homography | null, p: NearPicture): GroundPoint => {
  const at = lay && mapped(lay, p);
  if (!at) throw new Error('not on the ground');
  return at;
};
const places = [
  { x: 10, y: 5 },
  { x: 33.3, y: 17.1 },
  { x: 20, y: 10 },
];

describe('the lie of a map picture', () => {
  it('takes every point of a tilted photo to its place, from the four corners of the ring', () => {
    const underlay = layBy({ by: 'ring', corners: seen, ring }, picture, 0.5);
    if (!underlay) throw new Error('no lay');
    expect(Underlay.safeParse(underlay).success).toBe(true);
    const lay = pictureToGround(underlay, picture);
    for (const p of places) {
      const at = onGround(lay, photographed(p));
      expect(Math.hypot(at.x - p.x, at.y - p.y)).toBeLessThan(1e-9);
    }
  });

  it('does not mind in which order the corners were clicked', () => {
    const orders = [
      [0, 1, 2, 3],
      [2, 1, 0, 3],
      [3, 1, 0, 2],
      [1, 0, 3, 2],
    ];
    for (const [a = 0, b = 0, c = 0, d = 0] of orders) {
      const clicked = [a, b, c, d].map((i) => seen[i] ?? { x: 0, y: 0 }) as unknown as Four;
      expect(cornersInOrder(clicked, picture, 2)).toEqual([...seen]);
    }
  });

  it('lays the long side of the ring along the long side that is seen, and turns by a quarter when asked', () => {
    const upright: Four = [
      { x: 0.3, y: 0.95 },
      { x: 0.62, y: 0.95 },
      { x: 0.62, y: 0.1 },
      { x: 0.3, y: 0.1 },
    ];
    const tall = { width: 3000, height: 3000 };
    const underlay = layBy({ by: 'ring', corners: upright, ring }, tall, 0.5);
    if (!underlay) throw new Error('no lay');
    const lay = pictureToGround(underlay, tall);
    const one = onGround(lay, { x: 0.46, y: 0.1 });
    const other = onGround(lay, { x: 0.46, y: 0.95 });
    expect(Math.abs(one.x - other.x)).toBeCloseTo(40, 6);
    const turned = pictureToGround(turnedByQuarter(underlay), tall);
    const p = onGround(turned, { x: 0.46, y: 0.1 });
    const q = onGround(turned, { x: 0.46, y: 0.95 });
    expect(Math.abs(p.y - q.y)).toBeCloseTo(20, 6);
    expect(turnedByQuarter(turnedByQuarter(turnedByQuarter(turnedByQuarter(underlay))))).toEqual(underlay);
  });

  it('scales a flat picture by two points with a known length between them, keeping it upright', () => {
    const underlay = layBy(
      {
        by: 'length',
        points: [
          { x: 0.1, y: 0.9 },
          { x: 0.6, y: 0.9 },
        ],
        metres: 20,
        firstAt: { x: 0, y: 0 },
      },
      picture,
      1,
    );
    if (!underlay) throw new Error('no lay');
    expect(Underlay.safeParse(underlay).success).toBe(true);
    const lay = pictureToGround(underlay, picture);
    // Half of 4000 pixels are 20 m, so a pixel is a centimetre; 600 pixels up are 6 m.
    const at = onGround(lay, { x: 0.1, y: 0.7 });
    expect(at.x).toBeCloseTo(0, 9);
    expect(at.y).toBeCloseTo(6, 9);
  });

  it('straightens a sheet of paper first and scales it by a length on it', () => {
    // The sheet's corners are those of the ground's rectangle here: 40 by 20 of some unit.
    const underlay = layBy(
      {
        by: 'length',
        points: [photographed({ x: 10, y: 5 }), photographed({ x: 30, y: 5 })],
        metres: 10,
        firstAt: { x: 1, y: 2 },
        sheet: { corners: seen, shape: 2 },
      },
      picture,
      1,
    );
    if (!underlay) throw new Error('no lay');
    const at = onGround(pictureToGround(underlay, picture), photographed({ x: 30, y: 15 }));
    expect(at.x).toBeCloseTo(11, 6);
    expect(at.y).toBeCloseTo(7, 6);
  });

  it('says nothing where the points say nothing', () => {
    const one = { x: 0.5, y: 0.5 };
    expect(
      layBy({ by: 'length', points: [one, one], metres: 5, firstAt: { x: 0, y: 0 } }, picture, 1),
    ).toBeNull();
    const line = layBy(
      { by: 'ring', corners: [one, { x: 0.6, y: 0.5 }, { x: 0.7, y: 0.5 }, { x: 0.8, y: 0.5 }], ring },
      picture,
      1,
    );
    expect(Underlay.safeParse(line).success).toBe(false);
  });
});

describe('a course of numbers on a picture', () => {
  const clicked = (): Course => {
    const bare = countedCourse(3);
    return {
      ...bare,
      ring,
      mapPicture: { pictureId: 'p', name: 'map.jpg', ...picture },
      steps: bare.steps.map((s, i) => ({ ...s, onPicture: photographed(places[i] ?? { x: 0, y: 0 }) })),
    };
  };

  it('stands on the grass where it was clicked once the picture lies there, obstacle by obstacle the same', () => {
    const course = clicked();
    const underlay = layBy({ by: 'ring', corners: seen, ring }, picture, 0.5) ?? undefined;
    const drawn = standingWhereClicked({ ...course, ...(underlay ? { underlay } : {}) });
    expect(drawn.steps).toEqual(course.steps);
    expect(drawn.obstacles.map((o) => o.id)).toEqual(course.obstacles.map((o) => o.id));
    drawn.obstacles.forEach((o, i) => {
      expect(o.stand?.x).toBeCloseTo(places[i]?.x ?? NaN, 2);
      expect(o.stand?.y).toBeCloseTo(places[i]?.y ?? NaN, 2);
    });
    expect(drawn.obstacles[0]?.stand?.headingDegrees).toBe(27);
  });

  it('stays as it is where the picture does not lie on the ground, and leaves drawn obstacles alone', () => {
    const course = clicked();
    expect(standingWhereClicked(course)).toBe(course);
    const underlay = layBy({ by: 'ring', corners: seen, ring }, picture, 0.5) ?? undefined;
    const stand = { x: 3, y: 3, headingDegrees: 90 };
    const half = {
      ...course,
      ...(underlay ? { underlay } : {}),
      obstacles: course.obstacles.map((o, i) => (i === 1 ? { ...o, stand } : o)),
    };
    expect(standingWhereClicked(half).obstacles[1]?.stand).toEqual(stand);
  });
});
