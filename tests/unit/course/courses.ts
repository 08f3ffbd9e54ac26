import { Course, type Obstacle } from '../../../src/course/course.ts';
import type { ObstacleKind } from '../../../src/course/kinds.ts';

type Piece = Partial<Omit<Obstacle, 'kind' | 'stand'>> & {
  readonly kind?: ObstacleKind;
  /** x, y and heading; absent: not drawn. */
  readonly at?: readonly [number, number, number?];
  readonly bend?: readonly (readonly [number, number])[];
  readonly reverse?: boolean;
};

/** A course whose pieces carry the numbers 1, 2, 3 … in the order they are given. */
export function courseOf(pieces: readonly Piece[], more: Record<string, unknown> = {}): Course {
  return Course.parse({
    obstacles: pieces.map(({ kind = 'barJump', at, bend, reverse: _, ...o }, i) => ({
      id: `o${i + 1}`,
      kind,
      ...o,
      ...(at
        ? {
            stand: {
              x: at[0],
              y: at[1],
              headingDegrees: at[2] ?? 0,
              ...(bend ? { bend: bend.map(([x, y]) => ({ x, y })) } : {}),
            },
          }
        : {}),
    })),
    steps: pieces.map(({ reverse }, i) => ({
      number: i + 1,
      obstacleId: `o${i + 1}`,
      direction: reverse ? 'reverse' : 'forward',
    })),
    ...more,
  });
}

/** So many bar jumps along x, so far apart, heading along x. */
export const row = (count: number, apart: number): Course =>
  courseOf(Array.from({ length: count }, (_, i) => ({ at: [i * apart, 0] as const })));
