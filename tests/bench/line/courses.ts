import { Course } from '../../../src/course/course.ts';
import { footprint, quadsMeet, type Quad } from '../../../src/course/footprint.ts';
import type { ObstacleKind } from '../../../src/course/kinds.ts';
import { reach } from '../../../src/course/planShapes.ts';
import { from, headingTo } from '../../../src/course/pose.ts';
import { randomStream, type RandomStream } from '../../../scripts/simulator/base/random.ts';

/** What a random course is built from: mostly jumps, as courses are. */
const kinds: readonly ObstacleKind[] = [
  ...Array.from({ length: 9 }, (): ObstacleKind => 'barJump'),
  'spread',
  'tyre',
  'longJump',
  'tunnel',
  'tunnel',
  'weavePoles',
  'aFrame',
  'dogWalk',
  'seeSaw',
];

interface Placed {
  readonly kind: ObstacleKind;
  readonly x: number;
  readonly y: number;
  readonly headingDegrees: number;
  readonly bend?: readonly { readonly x: number; readonly y: number }[];
}

/** Half the length of a piece along its way, metres. */
const halfOf = (kind: ObstacleKind): number => (kind === 'tunnel' ? 2.5 : Math.max(0.3, reach({ kind })));

/**
 * A course of so many numbers in a ring of 40 by 40 metres that depends on its seed alone: each number 4 to 6 metres from
 * the end of the one before, up to 110 degrees off its way, turned up to 35 degrees, and nothing standing in anything.
 */
export function randomCourse(seed: number, count: number): Course {
  for (let attempt = 0; ; attempt++) {
    const placed = tryPlacing(randomStream(seed).branch(`attempt ${attempt}`), count);
    if (placed) return courseOf(placed);
  }
}

function tryPlacing(random: RandomStream, count: number): readonly Placed[] | undefined {
  const placed: Placed[] = [];
  let exit = { x: random.between(6, 34), y: random.between(6, 34), headingDegrees: random.between(0, 360) };
  while (placed.length < count) {
    let next: Placed | undefined;
    for (let tries = 0; tries < 60 && !next; tries++) {
      const kind = kinds[random.whole(kinds.length)] ?? 'barJump';
      const turn = random.chance(0.4) ? random.between(-110, 110) : random.between(-40, 40);
      const way = exit.headingDegrees + turn;
      const entry = from({ ...exit, headingDegrees: way }, random.between(4, 6));
      const headingDegrees = headingTo(exit, entry) + random.between(-35, 35);
      const middle = from({ ...entry, headingDegrees }, halfOf(kind));
      const piece: Placed = {
        kind,
        x: middle.x,
        y: middle.y,
        headingDegrees: Math.round(headingDegrees) % 360,
      };
      if (fits(piece, placed)) next = piece;
    }
    if (!next) return undefined;
    placed.push(next);
    exit = { ...from(next, halfOf(next.kind)), headingDegrees: next.headingDegrees };
  }
  return placed;
}

function fits(piece: Placed, placed: readonly Placed[]): boolean {
  const inside = groundOf(piece, 0)
    .flat()
    .every(({ x, y }) => x > 2 && x < 38 && y > 2 && y < 38);
  return (
    inside &&
    !placed.some((p) => groundOf(p, 0).some((a) => groundOf(piece, 1.2).some((b) => quadsMeet(a, b))))
  );
}

/** The ground of a piece, grown each way by so many metres. */
function groundOf({ kind, ...stand }: Placed, more: number): readonly Quad[] {
  const { x, y, headingDegrees } = stand;
  const quads = footprint({ kind }, { x, y, headingDegrees });
  if (more === 0) return quads;
  const [half, wide] = [halfOf(kind) + more, (kind === 'tunnel' ? 0.3 : 1.15) + more];
  const at = { x, y, headingDegrees };
  return [[from(at, -half, -wide), from(at, half, -wide), from(at, half, wide), from(at, -half, wide)]];
}

function courseOf(placed: readonly Placed[]): Course {
  return Course.parse({
    ring: { width: 40, length: 40 },
    obstacles: placed.map(({ kind, ...stand }, i) => ({ id: `o${i + 1}`, kind, stand })),
    steps: placed.map((_, i) => ({ number: i + 1, obstacleId: `o${i + 1}` })),
  });
}
