import { courseProblems, type Course, type Obstacle, type Stand } from './course.ts';
import { drawnSizes, equipment, type EquipmentTable } from './equipment.ts';
import { extentOf, extentsMeet, footprint, quadsMeet, type Extent, type Quad } from './footprint.ts';
import type { GroundPoint } from './points.ts';
import { lengthOf } from './pose.ts';
import { tunnelLine } from './tunnelLine.ts';

/** Something about a drawing that a coach wants to know of while drawing. Ids are of pieces. */
export type DrawingFinding =
  | { readonly finding: 'overlap'; readonly ids: readonly [string, string] }
  | { readonly finding: 'outside'; readonly ids: readonly [string] }
  | {
      readonly finding: 'tunnelLength';
      readonly ids: readonly [string];
      readonly metres: number;
      readonly range: readonly [number, number];
    }
  | { readonly finding: 'missingNumber' | 'waitingNumber' | 'repeatedNumber'; readonly number: number }
  | { readonly finding: 'lineOutside'; readonly line: 'start' | 'finish' };

interface Placed {
  readonly obstacle: Obstacle;
  readonly stand: Stand;
  readonly quads: readonly Quad[];
  readonly extent: Extent;
}

const climbed: ReadonlySet<Obstacle['kind']> = new Set(['aFrame', 'dogWalk']);

/** A tunnel may lie under an A-frame or a dog walk (common practice). */
function mayOverlap(a: Obstacle, b: Obstacle): boolean {
  return (a.kind === 'tunnel' && climbed.has(b.kind)) || (b.kind === 'tunnel' && climbed.has(a.kind));
}

/**
 * What does not fit in a drawing: pieces on each other or outside the ring, odd tunnels, holes in the numbers.
 * @param table sizes that the equipment is built to, for what they allow
 */
export function drawingFindings(
  course: Course,
  table: EquipmentTable = equipment,
): readonly DrawingFinding[] {
  const placed = course.obstacles.flatMap((obstacle): Placed[] => {
    if (!obstacle.stand) return [];
    const quads = footprint(obstacle, obstacle.stand);
    return [{ obstacle, stand: obstacle.stand, quads, extent: extentOf(quads.flat()) }];
  });
  if (placed.length === 0) return [];
  return [
    ...numberFindings(course),
    ...overlaps(placed),
    ...placed.flatMap((p) => ownFindings(course, p, table)),
    ...lineFindings(course),
  ];
}

function numberFindings(course: Course): DrawingFinding[] {
  const drawn = new Set(course.obstacles.filter((o) => o.stand).map((o) => o.id));
  return [
    ...courseProblems(course).flatMap((p): DrawingFinding[] =>
      p.problem === 'skippedNumber'
        ? [{ finding: 'missingNumber', number: p.number }]
        : p.problem === 'repeatedNumber'
          ? [{ finding: 'repeatedNumber', number: p.number }]
          : [],
    ),
    ...course.steps.flatMap((s): DrawingFinding[] =>
      drawn.has(s.obstacleId) ? [] : [{ finding: 'waitingNumber', number: s.number }],
    ),
  ];
}

function overlaps(placed: readonly Placed[]): DrawingFinding[] {
  const found: DrawingFinding[] = [];
  // Along x, so that each is only held against those it could reach.
  const sorted = placed.toSorted((a, b) => a.extent.x0 - b.extent.x0);
  sorted.forEach((a, i) => {
    for (let j = i + 1; j < sorted.length; j++) {
      const b = sorted[j];
      if (!b || b.extent.x0 > a.extent.x1) break;
      if (mayOverlap(a.obstacle, b.obstacle) || !extentsMeet(a.extent, b.extent)) continue;
      if (a.quads.some((p) => b.quads.some((q) => quadsMeet(p, q))))
        found.push({ finding: 'overlap', ids: [a.obstacle.id, b.obstacle.id] });
    }
  });
  return found;
}

function ownFindings(
  { ring }: Course,
  { obstacle, stand, quads }: Placed,
  { tunnelLength }: EquipmentTable,
): DrawingFinding[] {
  const found: DrawingFinding[] = [];
  const corners: readonly GroundPoint[] = quads.flat();
  const dust = 0.005;
  if (
    ring &&
    corners.some((p) => p.x < -dust || p.y < -dust || p.x > ring.width + dust || p.y > ring.length + dust)
  )
    found.push({ finding: 'outside', ids: [obstacle.id] });
  if (obstacle.kind === 'tunnel') {
    const metres = lengthOf(tunnelLine(stand, drawnSizes('tunnel', obstacle.sizes).tunnelLength));
    const { range } = tunnelLength;
    if (range && (metres < range[0] - 0.05 || metres > range[1] + 0.05))
      found.push({ finding: 'tunnelLength', ids: [obstacle.id], metres, range });
  }
  return found;
}

function lineFindings({ ring, startLine, finishLine }: Course): DrawingFinding[] {
  if (!ring) return [];
  const out = (p: GroundPoint): boolean => p.x < 0 || p.y < 0 || p.x > ring.width || p.y > ring.length;
  return (
    [
      ['start', startLine],
      ['finish', finishLine],
    ] as const
  ).flatMap(([line, at]): DrawingFinding[] =>
    at && (out(at.from) || out(at.to)) ? [{ finding: 'lineOutside', line }] : [],
  );
}
