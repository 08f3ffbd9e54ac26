import type { Course, Obstacle, Stand } from '../course/course.ts';
import { drawnSizes } from '../course/equipment.ts';
import type { PlanRole } from '../course/planShapes.ts';
import { from } from '../course/pose.ts';
import { projectAbove } from './above.ts';
import type { GroundCamera } from './camera.ts';
import type { PlanePoint } from './homography.ts';
import type { Point3 } from './pinhole.ts';

/** Heights that are drawn where a course says none, metres (ours, within what the worked rule book allows). */
const usual = { post: 1, pole: 1.1, tyre: 1.4, apex: 1.7, walk: 1.2 } as const;
/** Length of the level plank of a dog walk that is drawn, metres (ours, as the ground plan has it). */
const level = 3.6;

/** A line of equipment in space. */
interface Upright {
  readonly as: PlanRole;
  readonly points: readonly Point3[];
}

/** What stands up from the ground as the camera sees it: uprights, poles, ramps, and bars whose height is known. */
export function standingSeen(
  course: Course,
  camera: GroundCamera,
  lens: Point3,
): readonly { readonly as: PlanRole; readonly points: readonly PlanePoint[] }[] {
  return course.obstacles
    .flatMap((o) => (o.stand ? uprightsOf(o, o.stand) : []))
    .flatMap(({ as, points }) => {
      const seen = points.flatMap((p) => projectAbove(camera, lens, p) ?? []);
      const near = seen.every(
        (p) =>
          Math.abs(p.x / camera.picture.width - 0.5) < 1 && Math.abs(p.y / camera.picture.height - 0.5) < 1,
      );
      return near && seen.length === points.length ? [{ as, points: seen }] : [];
    });
}

function uprightsOf(o: Obstacle, stand: Stand): Upright[] {
  const size = drawnSizes(o.kind, o.sizes);
  const at = (along: number, aside: number, z: number): Point3 => ({ ...from(stand, along, aside), z });
  const post = (along: number, aside: number, height: number): Upright => ({
    as: 'pole',
    points: [at(along, aside, 0), at(along, aside, height)],
  });
  const across = (along: number, half: number, height: number): Upright => ({
    as: 'bar',
    points: [at(along, -half, height), at(along, half, height)],
  });
  const half = size.barWidth / 2;
  const height = o.sizes?.height;
  const jump = (along: number, side = half): Upright[] => [
    ...[-side, side].map((aside) => post(along, aside, usual.post)),
    ...(size.wings ? [-1, 1].map((s) => post(along, s * (side + size.wingWidth), usual.post)) : []),
    ...(height === undefined ? [] : [across(along, side, height)]),
  ];
  const edges = (profile: readonly (readonly [along: number, height: number])[], width: number): Upright[] =>
    [-1, 1].map((s) => ({
      as: 'plank',
      points: profile.map(([along, z]) => at(along, (s * width) / 2, z)),
    }));
  switch (o.kind) {
    case 'barJump':
    case 'panel':
    case 'wall':
      return jump(0);
    case 'spread':
      return [...jump(-size.depth / 2), ...jump(size.depth / 2, half + size.backBarLonger / 2)];
    case 'tyre': {
      const side = size.tyreFrame / 2;
      return [post(0, -side, usual.tyre), post(0, side, usual.tyre), across(0, side, usual.tyre)];
    }
    case 'weavePoles':
      return Array.from({ length: size.poles }, (_, i) =>
        post((i - (size.poles - 1) / 2) * size.spacing, 0, usual.pole),
      );
    case 'aFrame': {
      const foot = size.aFrameFootprint / 2;
      return edges(
        [
          [-foot, 0],
          [0, usual.apex],
          [foot, 0],
        ],
        size.aFrameWidth,
      );
    }
    case 'dogWalk': {
      const foot = size.dogWalkFootprint / 2;
      return edges(
        [
          [-foot, 0],
          [-level / 2, usual.walk],
          [level / 2, usual.walk],
          [foot, 0],
        ],
        size.plankWidth,
      );
    }
    case 'longJump':
    case 'seeSaw':
    case 'table':
    case 'tunnel':
    case 'unknown':
      return [];
  }
}
