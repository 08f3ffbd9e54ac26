import type { Course, Obstacle, Stand } from '../course/course.ts';
import { drawnSizes } from '../course/equipment.ts';
import type { GroundPoint } from '../course/points.ts';
import { from } from '../course/pose.ts';
import { tunnelMouths } from '../course/tunnelLine.ts';
import { partName } from '../words/ground.ts';
import { partKey, type Part, type PartName, type PlainPart } from './parts.ts';

/** A part of the course that the map knows and a picture shows: where it touches the ground. */
export interface KnownPoint {
  readonly part: Part;
  /** The identity as one text (partKey). */
  readonly id: string;
  readonly at: GroundPoint;
  /** What it is called: "left wing foot of 4, the gate". */
  readonly name: string;
}

/**
 * Everything of a course that can be clicked to fit it to a picture. Places are those of the drawing; a part keeps its
 * identity when its piece is moved, turned or renumbered.
 * @param course built by its rule book (builtBy), so that pieces have their true sizes
 */
export function knownPoints(
  course: Course,
  dialect: 'british' | 'american' = 'british',
): readonly KnownPoint[] {
  const numbers = new Map<string, number[]>();
  for (const { number, obstacleId } of course.steps)
    numbers.set(
      obstacleId,
      [...(numbers.get(obstacleId) ?? []), number].toSorted((a, b) => a - b),
    );
  const known = (part: Part, at: GroundPoint, obstacle?: Obstacle): KnownPoint => ({
    part,
    id: partKey(part),
    at,
    name: partName(part.part, obstacle && { ...obstacle, numbers: numbers.get(obstacle.id) ?? [] }, dialect),
  });
  const pieces = course.obstacles.flatMap((o) =>
    o.stand ? partsOf(o, o.stand).map(([part, at]) => known({ obstacleId: o.id, part }, at, o)) : [],
  );
  return [...pieces, ...around(course).map(([part, at]) => known({ part }, at))];
}

type Placed = readonly [PartName, GroundPoint];

function around({ ring, startLine, finishLine }: Course): readonly Placed[] {
  const corners: Placed[] = ring
    ? [
        ['ringCorner1', { x: 0, y: 0 }],
        ['ringCorner2', { x: ring.width, y: 0 }],
        ['ringCorner3', { x: ring.width, y: ring.length }],
        ['ringCorner4', { x: 0, y: ring.length }],
      ]
    : [];
  const start: Placed[] = startLine
    ? [
        ['startFrom', startLine.from],
        ['startTo', startLine.to],
      ]
    : [];
  const finish: Placed[] = finishLine
    ? [
        ['finishFrom', finishLine.from],
        ['finishTo', finishLine.to],
      ]
    : [];
  return [...corners, ...start, ...finish];
}

/** The parts of one piece that touch the ground. The far end of a see-saw hangs in the air and is not among them. */
function partsOf(o: Obstacle, stand: Stand): readonly Placed[] {
  const size = drawnSizes(o.kind, o.sizes);
  const at = (along: number, aside: number): GroundPoint => from(stand, along, aside);
  const pair = (left: PlainPart, right: PlainPart, along: number, aside: number): Placed[] => [
    [left, at(along, aside)],
    [right, at(along, -aside)],
  ];
  const half = size.barWidth / 2;
  const wing = size.wingWidth;
  switch (o.kind) {
    case 'barJump':
    case 'panel':
    case 'wall':
      return [
        ...pair('leftUpright', 'rightUpright', 0, half),
        ...(size.wings ? pair('leftWing', 'rightWing', 0, half + wing) : []),
      ];
    case 'spread': {
      const back = half + size.backBarLonger / 2;
      const deep = size.depth / 2;
      return [
        ...pair('leftUpright', 'rightUpright', -deep, half),
        ...pair('backLeftUpright', 'backRightUpright', deep, back),
        ...(size.wings
          ? [
              ...pair('leftWing', 'rightWing', -deep, half + wing),
              ...pair('backLeftWing', 'backRightWing', deep, back + wing),
            ]
          : []),
      ];
    }
    case 'longJump':
      return [
        ...pair('frontLeft', 'frontRight', -size.depth / 2, size.longJumpWidth / 2),
        ...pair('backLeft', 'backRight', size.depth / 2, size.longJumpWidth / 2),
      ];
    case 'tyre':
      return pair('leftFoot', 'rightFoot', 0, size.tyreFrame / 2);
    case 'tunnel': {
      const [first, second] = tunnelMouths(stand, size.tunnelLength, 'forward');
      const side = size.tunnelDiameter / 2;
      return [
        ['firstMouthLeft', from(first, 0, side)],
        ['firstMouthRight', from(first, 0, -side)],
        ['secondMouthLeft', from(second, 0, side)],
        ['secondMouthRight', from(second, 0, -side)],
      ];
    }
    case 'weavePoles':
      return Array.from({ length: size.poles }, (_, i): Placed => [
        `pole${i + 1}`,
        at((i - (size.poles - 1) / 2) * size.spacing, 0),
      ]);
    case 'aFrame':
      return [
        ...pair('upLeft', 'upRight', -size.aFrameFootprint / 2, size.aFrameWidth / 2),
        ...pair('downLeft', 'downRight', size.aFrameFootprint / 2, size.aFrameWidth / 2),
      ];
    case 'dogWalk':
      return [
        ...pair('upLeft', 'upRight', -size.dogWalkFootprint / 2, size.plankWidth / 2),
        ...pair('downLeft', 'downRight', size.dogWalkFootprint / 2, size.plankWidth / 2),
      ];
    case 'seeSaw':
      return pair('upLeft', 'upRight', -size.seeSawLength / 2, size.plankWidth / 2);
    case 'table':
      return [
        ...pair('frontLeft', 'frontRight', -size.tableSide / 2, size.tableSide / 2),
        ...pair('backLeft', 'backRight', size.tableSide / 2, size.tableSide / 2),
      ];
    case 'unknown':
      return [];
  }
}
