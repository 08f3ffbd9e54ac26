import type { Course, Obstacle } from '../../course/course.ts';

/** How far apart, metres, an obstacle may stand on two drawings of one course: a map is read to about so much. */
const drawnApart = 1;

/** Why two runs were not run over one and the same course. */
export type OtherCourse =
  | { readonly why: 'count'; readonly counts: readonly [number, number] }
  | { readonly why: 'kind' | 'place' | 'direction'; readonly number: number };

/**
 * What tells two courses apart, or null where they are one: the same numbers on the same kinds of obstacle, and where
 * both are drawn, at the same places and from the same side. What one of them does not say agrees with anything.
 */
export function otherCourse(a: Course, b: Course): OtherCourse | null {
  const last = (c: Course): number => Math.max(0, ...c.steps.map((s) => s.number));
  if (last(a) !== last(b)) return { why: 'count', counts: [last(a), last(b)] };
  const inB = numbered(b);
  for (const [number, one] of numbered(a)) {
    const two = inB.get(number);
    if (!two) continue;
    const known = one.obstacle.kind !== 'unknown' && two.obstacle.kind !== 'unknown';
    if (known && one.obstacle.kind !== two.obstacle.kind) return { why: 'kind', number };
    const [p, q] = [one.obstacle.stand, two.obstacle.stand];
    if (!p || !q) continue;
    if (!(Math.hypot(p.x - q.x, p.y - q.y) <= drawnApart)) return { why: 'place', number };
    if (one.direction !== two.direction) return { why: 'direction', number };
  }
  return null;
}

interface Numbered {
  readonly obstacle: Obstacle;
  readonly direction: string;
}

function numbered({ obstacles, steps }: Course): ReadonlyMap<number, Numbered> {
  const byId = new Map(obstacles.map((o) => [o.id, o]));
  return new Map(
    steps.flatMap(({ number, obstacleId, direction }) => {
      const obstacle = byId.get(obstacleId);
      return obstacle ? [[number, { obstacle, direction }] as const] : [];
    }),
  );
}
