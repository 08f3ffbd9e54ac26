import { apart } from '../../map/apart.ts';
import { boardsOf, type Board as NumberPlace } from '../../../../src/course/boards.ts';
import type { Course } from '../../../../src/course/course.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { equipmentShapes, type PlanRole, type PlanShape } from '../../../../src/course/planShapes.ts';
import { drawnSteps, orderLine, type DrawnStep } from '../../../../src/course/sequence.ts';

/** Everything of one role and thickness, in metres of the ground, to be painted at one go. */
interface Layer {
  readonly as: PlanRole;
  /** Metres; for dots their radius. */
  readonly width: number;
  readonly dots: boolean;
  readonly path: Path2D;
}

/** Pieces of a course made ready for painting, whatever the camera. */
export interface Scene {
  readonly layers: readonly Layer[];
  readonly order: Path2D;
  readonly steps: readonly DrawnStep[];
}

/** From the grass up: what lies under something else comes first. */
const heights: readonly PlanRole[] = ['tube', 'mouth', 'plank', 'contact', 'wing', 'bar', 'pole', 'spot'];

/** The pieces of a course without some, with the order between those that stand still. */
export function sceneOf(course: Course, without: ReadonlySet<string>): Scene {
  const all = drawnSteps(course);
  const order = new Path2D();
  all.forEach((step, i) => {
    const before = all[i - 1];
    if (!before || without.has(step.obstacle.id) || without.has(before.obstacle.id)) return;
    trace(order, orderLine([before, step]));
  });
  return {
    layers: layersOf(
      course.obstacles.flatMap((o) => (o.stand && !without.has(o.id) ? equipmentShapes(o, o.stand) : [])),
    ),
    order,
    steps: all.filter((s) => !without.has(s.obstacle.id)),
  };
}

/** The pieces that the hand carries, with the parts of the order that lead to them and away. */
export function carriedScene(course: Course, ids: ReadonlySet<string>, all: readonly DrawnStep[]): Scene {
  const order = new Path2D();
  all.forEach((step, i) => {
    const before = all[i - 1];
    if (before && (ids.has(step.obstacle.id) || ids.has(before.obstacle.id))) {
      trace(order, orderLine([before, step]));
    }
  });
  return {
    layers: layersOf(
      course.obstacles.flatMap((o) => (o.stand && ids.has(o.id) ? equipmentShapes(o, o.stand) : [])),
    ),
    order,
    steps: all.filter((s) => ids.has(s.obstacle.id)),
  };
}

export function trace(path: Path2D, points: readonly GroundPoint[]): void {
  points.forEach((p, i) => {
    if (i === 0) path.moveTo(p.x, p.y);
    else path.lineTo(p.x, p.y);
  });
}

export function layersOf(shapes: readonly PlanShape[]): readonly Layer[] {
  const layers = new Map<string, Layer>();
  for (const s of shapes) {
    const width = s.shape === 'dot' ? s.r : s.width;
    const key = `${s.as}/${width}`;
    const layer = layers.get(key) ?? { as: s.as, width, dots: s.shape === 'dot', path: new Path2D() };
    layers.set(key, layer);
    if (s.shape === 'dot') {
      layer.path.moveTo(s.x + s.r, s.y);
      layer.path.arc(s.x, s.y, s.r, 0, 2 * Math.PI);
    } else
      s.points.forEach(([x, y], i) => {
        if (i === 0) layer.path.moveTo(x, y);
        else layer.path.lineTo(x, y);
      });
  }
  return [...layers.values()].sort((a, b) => heights.indexOf(a.as) - heights.indexOf(b.as));
}

/** Height of a number on the board, pixels. */
export const boardSize = 24;

/** Where numbers stand at a scale, in metres, none over another. */
export function numberPlaces(steps: readonly DrawnStep[], scale: number): readonly NumberPlace[] {
  const boards = boardsOf(steps, boardSize / scale);
  // Room to all sides: the ground has no edge.
  const far = 1e6;
  const spots = apart(
    boards.map((b) => ({ x: far / 2 + b.x * scale, y: far / 2 - b.y * scale })),
    far,
    far,
  );
  return boards.map((b, i) => {
    const spot = spots[i];
    return spot ? { ...b, x: (spot.x - far / 2) / scale, y: (far / 2 - spot.y) / scale } : b;
  });
}
