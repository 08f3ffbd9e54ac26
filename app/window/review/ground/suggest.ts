import type { Course } from '../../../../src/course/course.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import type { Fit } from '../../../../src/ground/fit.ts';
import type { KnownPoint } from '../../../../src/ground/knownPoints.ts';
import { nextBest } from '../../../../src/ground/predict.ts';

/** From one number of the course to another. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Pieces with a number from one to the other, both included, in the order in which they are run. */
export function piecesOf({ steps }: Pick<Course, 'steps'>, stretch: Stretch | null): readonly string[] {
  const numbers = steps
    .filter((s) => !stretch || (s.number >= stretch.from && s.number <= stretch.to))
    .toSorted((a, b) => a.number - b.number);
  return [...new Set(numbers.map((s) => s.obstacleId))];
}

/** The points that are asked for: of the pieces of a stretch, or all there are. */
export function pointsFor(
  known: readonly KnownPoint[],
  course: Pick<Course, 'steps'>,
  stretch: Stretch | null,
): readonly KnownPoint[] {
  if (!stretch) return known;
  const pieces = new Set(piecesOf(course, stretch));
  return known.filter((k) => k.part.obstacleId !== undefined && pieces.has(k.part.obstacleId));
}

const far = (a: GroundPoint, b: GroundPoint): number => Math.hypot(a.x - b.x, a.y - b.y);
const nearest = (k: KnownPoint, others: readonly KnownPoint[]): number =>
  Math.min(...others.map((o) => far(k.at, o.at)));

/** The one of the points for which a figure is greatest; the first of several. */
function greatest(points: readonly KnownPoint[], of: (k: KnownPoint) => number): KnownPoint | null {
  return points.reduce<KnownPoint | null>((best, k) => (best && of(best) >= of(k) ? best : k), null);
}

/**
 * The point that is likely to be clicked next. With a fit: the one that makes it surest over the places that matter.
 * Before: the other end of a piece of which one end is clicked (it is in sight already), else one far from all that
 * are clicked, on a piece rather than a corner of the ring, which may be nothing but grass.
 * @param points that are asked for
 * @param done ids of those that are clicked, agreed to or skipped, the newest last
 * @param places of the ground that are to be measured
 */
export function nextPoint(
  points: readonly KnownPoint[],
  done: readonly string[],
  course: Pick<Course, 'steps'>,
  fit: Fit | null,
  places: readonly GroundPoint[],
  clicked: readonly string[],
): KnownPoint | null {
  const open = points.filter((k) => !done.includes(k.id));
  if (open.length === 0) return null;
  if (fit) {
    const best = nextBest(
      fit,
      open.map((k) => ({ id: k.id, ground: k.at })),
      places,
    );
    return open.find((k) => k.id === best?.id) ?? null;
  }
  const mine = points.filter((k) => clicked.includes(k.id));
  const last = points.find((k) => k.id === clicked.at(-1));
  if (last?.part.obstacleId !== undefined) {
    const same = (k: KnownPoint): boolean => k.part.obstacleId === last.part.obstacleId;
    if (mine.filter(same).length === 1) {
      const other = greatest(open.filter(same), (k) => far(k.at, last.at));
      if (other) return other;
    }
  }
  const pieces = open.filter((k) => k.part.obstacleId !== undefined);
  const from = pieces.length > 0 ? pieces : open;
  if (mine.length > 0) return greatest(from, (k) => nearest(k, mine));
  const order = piecesOf(course, null);
  const first = order.find((id) => from.some((k) => k.part.obstacleId === id));
  // The outer end of the first piece: its points farthest from its middle.
  const its = from.filter((k) => k.part.obstacleId === first);
  const some = its.length > 0 ? its : from;
  return greatest(some, (k) => Math.max(...some.map((o) => far(k.at, o.at))));
}
