import { boardsOf } from '../course/boards.ts';
import type { Course } from '../course/course.ts';
import { equipmentShapes, type PlanPoint, type PlanRole } from '../course/planShapes.ts';
import { drawnSteps } from '../course/sequence.ts';
import { inPicture, project, type GroundCamera } from './camera.ts';
import type { ErrorMap } from './groundError.ts';
import type { PlanePoint } from './homography.ts';
import type { Point3 } from './pinhole.ts';
import { standingSeen } from './standing.ts';

/** Something of the course as the camera sees it; points are pixels of the picture. */
export type SeenShape =
  | {
      readonly shape: 'line' | 'area';
      readonly as: PlanRole;
      readonly points: readonly PlanePoint[];
      /** It stands up from the ground. */
      readonly upright?: true;
    }
  | { readonly shape: 'number'; readonly text: string; readonly at: PlanePoint };

/** Lines are cut into pieces this long, so that a lens may bend them. Metres. */
const piece = 0.5;
/** What lies farther outside of the picture than its own size is not drawn. */
const outside = 1;
/** Numbers stand this far before their obstacle, as the boards do. Metres. */
const boardSize = 0.6;

/**
 * The course over the footage: the ring, what stands in it, and its numbers, where the camera sees the ground.
 * @param lens where the camera stands; null: what stands up from the ground is not drawn
 */
export function courseSeen(
  course: Course,
  camera: GroundCamera,
  lens: Point3 | null = null,
): readonly SeenShape[] {
  const { ring, startLine, finishLine } = course;
  const line = (as: PlanRole, points: readonly PlanPoint[]): SeenShape[] =>
    runs(camera, cut(points)).map((points) => ({ shape: 'line', as, points }));
  const corners: readonly PlanPoint[] = ring
    ? [
        [0, 0],
        [ring.width, 0],
        [ring.width, ring.length],
        [0, ring.length],
        [0, 0],
      ]
    : [];
  const posts = [
    [startLine, 'start'],
    [finishLine, 'finish'],
  ] as const;
  return [
    ...line('ring', corners),
    ...posts.flatMap(([l, as]) =>
      l
        ? line(as, [
            [l.from.x, l.from.y],
            [l.to.x, l.to.y],
          ])
        : [],
    ),
    ...course.obstacles
      .flatMap((o) => (o.stand ? equipmentShapes(o, o.stand) : []))
      .flatMap((s) => {
        if (s.shape === 'dot') return area(camera, s.as, round(s.x, s.y, s.r));
        // What has a breadth on the ground is outlined; bars and wings are lines.
        return s.width > 0.2 ? area(camera, s.as, outline(s.points, s.width / 2)) : line(s.as, s.points);
      }),
    ...(lens ? standingSeen(course, camera, lens) : []).map((s): SeenShape => ({
      shape: 'line',
      upright: true,
      ...s,
    })),
    ...boardsOf(drawnSteps(course), boardSize).flatMap(({ number, x, y }): SeenShape[] => {
      const at = project(camera, { x, y });
      return at && inPicture(camera.picture, at) ? [{ shape: 'number', text: String(number), at }] : [];
    }),
  ];
}

function area(camera: GroundCamera, as: PlanRole, points: readonly PlanPoint[]): SeenShape[] {
  const first = points[0];
  const [whole, more] = runs(camera, cut(first ? [...points, first] : []));
  return whole && !more ? [{ shape: 'area', as, points: whole }] : [];
}

/** A line with points no farther apart than a piece. */
function cut(points: readonly PlanPoint[]): PlanPoint[] {
  return points.flatMap((a, i): PlanPoint[] => {
    const b = points[i + 1];
    if (!b) return [a];
    const n = Math.max(1, Math.min(400, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / piece)));
    return Array.from({ length: n }, (_, k) => [
      a[0] + (k / n) * (b[0] - a[0]),
      a[1] + (k / n) * (b[1] - a[1]),
    ]);
  });
}

/** The parts of a line that the camera sees, in and about the picture. */
function runs(camera: GroundCamera, points: readonly PlanPoint[]): readonly PlanePoint[][] {
  const { width, height } = camera.picture;
  const all: PlanePoint[][] = [];
  let now: PlanePoint[] = [];
  for (const [x, y] of points) {
    const p = project(camera, { x, y });
    const seen =
      p && Math.abs(p.x / width - 0.5) < 0.5 + outside && Math.abs(p.y / height - 0.5) < 0.5 + outside;
    if (seen) now.push(p);
    else if (now.length > 0) {
      all.push(now);
      now = [];
    }
  }
  if (now.length > 0) all.push(now);
  return all.filter((run) => run.length > 1);
}

const round = (x: number, y: number, r: number): PlanPoint[] =>
  Array.from({ length: 12 }, (_, i) => [
    x + r * Math.cos((i * Math.PI) / 6),
    y + r * Math.sin((i * Math.PI) / 6),
  ]);

/** Round a line of some breadth: along its left, back along its right. */
function outline(points: readonly PlanPoint[], half: number): PlanPoint[] {
  const side = (by: number): PlanPoint[] =>
    points.map(([x, y], i) => {
      const [a, b] = [
        points[Math.max(0, i - 1)] ?? [x, y],
        points[Math.min(points.length - 1, i + 1)] ?? [x, y],
      ];
      const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
      const long = Math.hypot(dx, dy) || 1;
      return [x - (by * dy) / long, y + (by * dx) / long];
    });
  return [...side(half), ...side(-half).toReversed()];
}

/** Bounds of what is expected to be off, centimetres: what a click tells to within them is painted alike. */
export const errorBounds = [5, 10, 20, 50] as const;

/** The band of an expected error: 0 for the surest, 4 beyond the last bound. */
export const bandOf = (centimetres: number): number => {
  const i = errorBounds.findIndex((b) => centimetres <= b);
  return i < 0 ? errorBounds.length : i;
};

/** A patch of the ground whose expected error is of one band, and its corners on the picture. */
export interface ErrorPatch {
  readonly band: number;
  readonly centimetres: number;
  readonly column: number;
  readonly row: number;
  readonly corners: readonly PlanePoint[];
}

/** The expected error over the footage, patch by patch. */
export function errorSeen(map: ErrorMap, camera: GroundCamera): readonly ErrorPatch[] {
  return map.centimetres.flatMap((centimetres, i): ErrorPatch[] => {
    if (centimetres === null) return [];
    const [column, row] = [i % map.columns, Math.floor(i / map.columns)];
    const at = (c: number, r: number): PlanePoint | null =>
      project(camera, { x: map.from.x + c * map.step, y: map.from.y + r * map.step });
    const corners = [at(column, row), at(column + 1, row), at(column + 1, row + 1), at(column, row + 1)];
    return corners.every((c) => c !== null)
      ? [{ band: bandOf(centimetres), centimetres, column, row, corners }]
      : [];
  });
}
