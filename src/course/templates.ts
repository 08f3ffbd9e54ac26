import type { Course } from './course.ts';
import { withPiece } from './drawing/pieces.ts';
import { nextNumber, numbered } from './drawing/numbering.ts';
import type { Sizes } from './equipment.ts';
import type { ObstacleKind } from './kinds.ts';

/** Practice exercises of our own, and an empty ring. Small enough for a lawn or a hall. */
export const templateNames = [
  'emptyRing',
  'straightLine',
  'roundTheCorner',
  'threeInARow',
  'square',
  'polesBothWays',
  'tunnelAndBack',
] as const;
export type TemplateName = (typeof templateNames)[number];

interface Piece {
  readonly kind: ObstacleKind;
  readonly x: number;
  readonly y: number;
  readonly heading: number;
  readonly bend?: readonly (readonly [number, number])[];
  readonly sizes?: Sizes;
}

interface Template {
  /** Metres. */
  readonly ring: { readonly width: number; readonly length: number };
  readonly pieces: readonly Piece[];
  /** Which piece each number stands on, and whether it is taken the other way. */
  readonly order: readonly (readonly [piece: number, reversed?: 'reverse'])[];
  readonly start?: Course['startLine'];
}

const jump = (x: number, y: number, heading: number): Piece => ({ kind: 'barJump', x, y, heading });

const templates: Readonly<Record<TemplateName, Template>> = {
  emptyRing: { ring: { width: 40, length: 20 }, pieces: [], order: [] },
  // A stay, a lead-out and a fast line to a tunnel.
  straightLine: {
    ring: { width: 32, length: 10 },
    pieces: [jump(6, 5, 0), jump(11.5, 5, 0), jump(17, 5, 0), { kind: 'tunnel', x: 25, y: 5, heading: 0 }],
    order: [[0], [1], [2], [3]],
    start: { from: { x: 3, y: 3.5 }, to: { x: 3, y: 6.5 } },
  },
  // One turn of a right angle, to be run with the dog on either side.
  roundTheCorner: {
    ring: { width: 20, length: 20 },
    pieces: [jump(4, 5, 0), jump(9.5, 5, 0), jump(14.5, 7.5, 55), jump(15.5, 13, 95)],
    order: [[0], [1], [2], [3]],
  },
  // Three jumps side by side: out, in, out, and back.
  threeInARow: {
    ring: { width: 22, length: 16 },
    pieces: [jump(6, 8, 90), jump(11, 8, 90), jump(16, 8, 90)],
    order: [[0], [1, 'reverse'], [2], [1], [0, 'reverse']],
  },
  // Four jumps round an open middle: every turn of the trade can be asked for here.
  square: {
    ring: { width: 20, length: 20 },
    pieces: [jump(10, 5, 0), jump(15, 10, 90), jump(10, 15, 180), jump(5, 10, 270)],
    order: [[0], [1], [2], [3]],
  },
  // The poles met from the left, then from the right.
  polesBothWays: {
    ring: { width: 32, length: 14 },
    pieces: [
      { kind: 'weavePoles', x: 17, y: 7, heading: 0, sizes: { poles: 12 } },
      jump(8, 10, -35),
      jump(26, 7, 0),
      jump(26, 11.5, 180),
    ],
    order: [[1], [0], [2], [3]],
  },
  // A bent tunnel that brings the dog back past the handler.
  tunnelAndBack: {
    ring: { width: 24, length: 16 },
    pieces: [
      jump(6, 5, 0),
      jump(11.5, 5, 0),
      {
        kind: 'tunnel',
        x: 18.6,
        y: 7,
        heading: 90,
        bend: [
          [16.8, 5.2],
          [18.1, 5.7],
          [18.6, 7],
          [18.1, 8.3],
          [16.8, 8.8],
        ],
      },
      jump(11, 9, 180),
      jump(6, 9.5, 180),
    ],
    order: [[0], [1], [2], [3], [4]],
  },
};

/**
 * A template put into a course. On a course where nothing is drawn it brings its ring, lines and numbers, and takes
 * up numbers that wait; on a drawn one it only adds its pieces. `newId` makes ids.
 */
export function withTemplate(course: Course, name: TemplateName, newId: () => string): Course {
  const { ring, pieces, order, start } = templates[name];
  const drawn = course.obstacles.some((o) => o.stand);
  let next: Course = drawn
    ? course
    : { ...course, ring: { ...ring }, ...(start ? { startLine: start } : {}) };
  const ids = pieces.map(({ kind, x, y, heading, bend, sizes }) => {
    const id = newId();
    next = withPiece(next, {
      id,
      kind,
      stand: {
        x,
        y,
        headingDegrees: heading,
        ...(bend ? { bend: bend.map(([bx, by]) => ({ x: bx, y: by })) } : {}),
      },
      ...(sizes ? { sizes } : {}),
    });
    return id;
  });
  if (drawn) return next;
  for (const [piece, reversed] of order) {
    const number = nextNumber(next);
    const id = ids[piece];
    if (number !== null && id !== undefined) next = numbered(next, number, id, reversed ?? 'forward');
  }
  return next;
}
