import type { Obstacle, Stand } from './course.ts';
import { drawnSizes } from './equipment.ts';
import { from, type Pose } from './pose.ts';
import { tunnelLine, tunnelMouths } from './tunnelLine.ts';

/** What a shape is; who paints it gives it its colours. */
export type PlanRole =
  | 'ring'
  | 'order'
  | 'start'
  | 'finish'
  | 'bar'
  | 'wing'
  | 'tube'
  | 'mouth'
  | 'plank'
  | 'contact'
  | 'pole'
  | 'spot';

/** A point in the units and with the axes of whoever asked. */
export type PlanPoint = readonly [number, number];

/** A piece of a plan, in the order in which it is painted. */
export type PlanShape =
  | {
      readonly shape: 'path';
      readonly points: readonly PlanPoint[];
      readonly width: number;
      readonly as: PlanRole;
      readonly closed?: boolean;
    }
  | {
      readonly shape: 'dot';
      readonly x: number;
      readonly y: number;
      readonly r: number;
      readonly as: PlanRole;
    };

/** Places a point of the ground on the paper: metres of the ring in, the paper's own units out. */
export type Placing = (x: number, y: number) => PlanPoint;

/** The ground as it is: metres, y away from the first side. */
export const onGround: Placing = (x, y) => [x, y];

/** Thickness on paper of what is thinner in truth than a line can be, metres. */
const ink = { bar: 0.1, wing: 0.16, board: 0.15, pole: 0.1 } as const;

/** How far a piece reaches from its middle along the way it is taken, metres. Tunnels: from a mouth. */
export function reach(o: Pick<Obstacle, 'kind' | 'sizes'>): number {
  const size = drawnSizes(o.kind, o.sizes);
  switch (o.kind) {
    case 'aFrame':
      return size.aFrameFootprint / 2;
    case 'dogWalk':
      return size.dogWalkFootprint / 2;
    case 'seeSaw':
      return size.seeSawLength / 2;
    case 'weavePoles':
      return ((size.poles - 1) / 2) * size.spacing;
    case 'longJump':
    case 'spread':
    case 'wall':
      return Math.max(0.3, size.depth / 2);
    case 'table':
      return size.tableSide / 2;
    case 'tunnel':
      return 0.3;
    case 'barJump':
    case 'panel':
    case 'tyre':
    case 'unknown':
      return 0.3;
  }
}

/** A piece of equipment as it stands on the grass, to true scale. */
export function equipmentShapes(
  o: Pick<Obstacle, 'kind' | 'sizes'>,
  stand: Stand,
  at: Placing = onGround,
): PlanShape[] {
  const size = drawnSizes(o.kind, o.sizes);
  const put = (along: number, aside: number): PlanPoint => {
    const p = from(stand, along, aside);
    return at(p.x, p.y);
  };
  const across = (along: number, a: number, b: number, width: number, as: PlanRole): PlanShape => ({
    shape: 'path',
    points: [put(along, a), put(along, b)],
    width,
    as,
  });
  const lengthwise = (a: number, b: number, width: number, as: PlanRole): PlanShape => ({
    shape: 'path',
    points: [put(a, 0), put(b, 0)],
    width,
    as,
  });
  const dot = (along: number, aside: number, r: number, as: PlanRole): PlanShape => {
    const [x, y] = put(along, aside);
    return { shape: 'dot', x, y, r, as };
  };
  const half = size.barWidth / 2;
  const wing = size.wingWidth;
  const wings = (along: number, side = half): PlanShape[] =>
    size.wings
      ? [
          across(along, side, side + wing, ink.wing, 'wing'),
          across(along, -side, -side - wing, ink.wing, 'wing'),
        ]
      : // Without wings the bar lies on two uprights.
        [dot(along, side, ink.pole, 'pole'), dot(along, -side, ink.pole, 'pole')];
  const ramps = (length: number, width: number, contact: number): PlanShape[] => [
    lengthwise(-length / 2, length / 2, width, 'plank'),
    lengthwise(-length / 2, -length / 2 + contact, width, 'contact'),
    lengthwise(length / 2, length / 2 - contact, width, 'contact'),
  ];
  switch (o.kind) {
    case 'barJump':
      return [across(0, -half, half, ink.bar, 'bar'), ...wings(0)];
    case 'spread': {
      const back = half + size.backBarLonger / 2;
      return [
        across(-size.depth / 2, -half, half, ink.bar, 'bar'),
        ...wings(-size.depth / 2),
        across(size.depth / 2, -back, back, ink.bar, 'bar'),
        ...wings(size.depth / 2, back),
      ];
    }
    case 'panel':
      return [across(0, -half, half, ink.board, 'plank'), ...wings(0)];
    case 'wall':
      return [across(0, -half, half, size.depth, 'plank'), ...wings(0)];
    case 'longJump': {
      const side = size.longJumpWidth / 2;
      const board = size.longJumpUnitDepth;
      const span = Math.max(0, size.depth - board);
      return Array.from({ length: size.units }, (_, i) => {
        const along = size.units === 1 ? 0 : (i / (size.units - 1) - 0.5) * span;
        return across(along, -side, side, board, 'plank');
      });
    }
    case 'tyre': {
      const frame = size.tyreFrame / 2;
      const ring = size.tyreAperture / 2;
      return [
        across(0, ring, frame, ink.wing / 2, 'wing'),
        across(0, -ring, -frame, ink.wing / 2, 'wing'),
        across(0, -ring, ring, 0.24, 'bar'),
      ];
    }
    case 'tunnel': {
      const points = tunnelLine(stand, size.tunnelLength).map((p) => at(p.x, p.y));
      const mouths = [points[0], points.at(-1)].flatMap((p): PlanShape[] =>
        p ? [{ shape: 'dot', x: p[0], y: p[1], r: size.tunnelDiameter / 2, as: 'mouth' }] : [],
      );
      return [{ shape: 'path', points, width: size.tunnelDiameter, as: 'tube' }, ...mouths];
    }
    case 'weavePoles':
      return Array.from({ length: size.poles }, (_, i) =>
        dot((i - (size.poles - 1) / 2) * size.spacing, 0, ink.pole, 'pole'),
      );
    case 'aFrame':
      return [
        ...ramps(size.aFrameFootprint, size.aFrameWidth, size.aFrameContact),
        across(0, -size.aFrameWidth / 2, size.aFrameWidth / 2, 0.06, 'wing'),
      ];
    case 'dogWalk':
      return ramps(size.dogWalkFootprint, size.plankWidth, size.dogWalkContact);
    case 'seeSaw': {
      const side = size.plankWidth / 2 + 0.1;
      return [
        ...ramps(size.seeSawLength, size.plankWidth, size.seeSawContact),
        across(0, -side, side, 0.1, 'wing'),
      ];
    }
    case 'table': {
      const side = size.tableSide / 2;
      return [lengthwise(-side, side, size.tableSide, 'plank')];
    }
    case 'unknown':
      return [dot(0, 0, 0.35, 'spot')];
  }
}

/** Where the dog goes in and where it comes out, and the way it runs there. */
export function wayThrough(
  o: Pick<Obstacle, 'kind' | 'sizes'>,
  stand: Stand,
  direction: 'forward' | 'reverse',
): readonly [Pose, Pose] {
  if (o.kind === 'tunnel') return tunnelMouths(stand, drawnSizes(o.kind, o.sizes).tunnelLength, direction);
  const headingDegrees = stand.headingDegrees + (direction === 'forward' ? 0 : 180);
  const pose: Pose = { x: stand.x, y: stand.y, headingDegrees };
  const far = ends.has(o.kind) ? reach(o) : 0;
  return [
    { ...from(pose, -far), headingDegrees },
    { ...from(pose, far), headingDegrees },
  ];
}

/** Kinds whose two ends lie so far apart that the dog's way through them shows on a map. */
const ends: ReadonlySet<Obstacle['kind']> = new Set(['aFrame', 'dogWalk', 'seeSaw', 'weavePoles']);
