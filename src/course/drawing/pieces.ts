import { mostObstacles, type Course, type Obstacle, type Stand, type Step } from '../course.ts';
import { choicesOf, type Sizes } from '../equipment.ts';
import type { ObstacleKind } from '../kinds.ts';
import { plainHeading } from '../pose.ts';
import { movedBy, type Chosen } from './arrange.ts';

/** The ring that a first drawing gets: the room within which a course is set (FCI changes from 2012). Metres. */
export const usualRing = { width: 40, length: 20 } as const;

/** How a piece is put down. */
export interface NewPiece {
  readonly id: string;
  readonly kind: ObstacleKind;
  readonly stand: Stand;
  readonly sizes?: Sizes;
}

/** The course with a piece more; as it was where it can hold no more. A course without a ring gets the usual one. */
export function withPiece(course: Course, piece: NewPiece): Course {
  if (course.obstacles.length >= mostObstacles) return course;
  const { id, kind, stand, sizes } = piece;
  const there = { ...stand, headingDegrees: plainHeading(stand.headingDegrees) };
  const obstacle: Obstacle = { id, kind, nickname: '', stand: there, ...(sizes ? { sizes } : {}) };
  return { ...course, ring: course.ring ?? { ...usualRing }, obstacles: [...course.obstacles, obstacle] };
}

/** Copies of the chosen pieces, without numbers, a little aside. `ids` gives each its id. */
export function duplicated(course: Course, chosen: Chosen, ids: readonly string[], aside: number): Course {
  const wanted = new Set(chosen);
  const copies = course.obstacles
    .filter((o) => wanted.has(o.id) && o.stand)
    .slice(0, Math.min(ids.length, mostObstacles - course.obstacles.length))
    .map((o, i): Obstacle => ({ ...o, id: ids[i] ?? o.id, nickname: '' }));
  const more = { ...course, obstacles: [...course.obstacles, ...copies] };
  return movedBy(
    more,
    copies.map((o) => o.id),
    aside,
    -aside,
  );
}

/**
 * The course without the chosen pieces. Their numbers go too and those behind move up, but never a number up to
 * `lastKept`, on which marks or plans stand: it stays and waits for another piece.
 */
export function withoutPieces(course: Course, chosen: Chosen, lastKept: number): Course {
  const gone = new Set(chosen);
  const keeps = (s: Step): boolean => !gone.has(s.obstacleId) || s.number <= lastKept;
  const steps = course.steps.filter(keeps).toSorted((a, b) => a.number - b.number);
  const waiting = new Set(steps.filter((s) => gone.has(s.obstacleId)).map((s) => s.obstacleId));
  const before = (n: number): number => course.steps.filter((s) => s.number < n && !keeps(s)).length;
  return {
    ...course,
    obstacles: course.obstacles
      .filter((o) => !gone.has(o.id) || waiting.has(o.id))
      .map((o) => {
        if (!waiting.has(o.id)) return o;
        const { stand: _, ...bare } = o;
        return bare;
      }),
    steps: steps.map((s) => ({ ...s, number: s.number - before(s.number) })),
  };
}

/** A piece with another kind or name. Sizes that the new kind does not have go. */
export function withFacts(
  course: Course,
  id: string,
  part: { readonly kind?: ObstacleKind; readonly nickname?: string },
): Course {
  const other = { ...course, obstacles: course.obstacles.map((o) => (o.id === id ? { ...o, ...part } : o)) };
  if (part.kind === undefined) return other;
  const allowed = new Set<string>(choicesOf(part.kind));
  return {
    ...other,
    obstacles: other.obstacles.map((o) => {
      if (o.id !== id) return o;
      const { sizes, stand, ...rest } = o;
      const kept = Object.fromEntries(Object.entries(sizes ?? {}).filter(([name]) => allowed.has(name)));
      const { bend, ...straight } = stand ?? { x: 0, y: 0, headingDegrees: 0 };
      return {
        ...rest,
        ...(stand ? { stand: bend && o.kind === 'tunnel' ? stand : straight } : {}),
        ...(Object.keys(kept).length > 0 ? { sizes: kept } : {}),
      };
    }),
  };
}
