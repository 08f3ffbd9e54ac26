import type { Course, Obstacle, Stand } from '../../course/course.ts';
import { drawnSizes } from '../../course/equipment.ts';
import { extentOf, footprint, type Extent } from '../../course/footprint.ts';
import type { GroundPoint } from '../../course/points.ts';
import { from } from '../../course/pose.ts';

export type HidingPart = 'wing' | 'tube' | 'frame' | 'ramp' | 'board' | 'stand' | 'top';

/** A part of a piece that a dog cannot look through or over: a convex piece of the ground, or a line of it. */
export interface Hider {
  readonly obstacleId: string;
  readonly part: HidingPart;
  readonly ground: readonly GroundPoint[];
  readonly extent: Extent;
}

/**
 * Heights of equipment where nothing is given, metres: as it is drawn (A-frame, dog walk; see equipment.ts), or
 * assumed. A part hides from a dog whose eyes are no higher than it.
 */
const heights = { aFrame: 1.7, dogWalk: 1.2, board: 0.6, table: 0.6, seeSawStand: 0.6, wing: 1 } as const;
/** Of a dog walk's length on the ground, one ramp: planks of 3.60 m, 1.20 m high. */
const rampShare = 0.3267;
/** A ramp is a plank: it hides where it stands between these shares of her eyes' height; elsewhere she looks over or under it. */
const plankHides = [0.5, 1.5] as const;
/** Half the length of what carries a see-saw, metres. */
const standHalf = 0.3;

/**
 * What hides on a course, on the plan, from eyes so high (metres). Assumed: wings, tunnels, panels and walls are
 * closed; an A-frame hides where it is higher than her eyes, dog walk ramps only where their plank is about as high;
 * bars, poles, tyres, long jumps and what nobody has named are looked through. People are not on the map.
 */
export function hidersOf(course: Pick<Course, 'obstacles'>, eyeHeight: number): readonly Hider[] {
  return course.obstacles.flatMap((o) => (o.stand ? partsOf(o, o.stand, eyeHeight) : []));
}

function partsOf(o: Obstacle, stand: Stand, eyes: number): Hider[] {
  const size = drawnSizes(o.kind, o.sizes);
  const hider = (part: HidingPart, ground: readonly GroundPoint[]): Hider => ({
    obstacleId: o.id,
    part,
    ground,
    extent: extentOf(ground),
  });
  const line = (part: HidingPart, along: number, a: number, b: number): Hider =>
    hider(part, [from(stand, along, a), from(stand, along, b)]);
  const block = (part: HidingPart, a: number, b: number, half: number): Hider =>
    hider(part, [from(stand, a, -half), from(stand, b, -half), from(stand, b, half), from(stand, a, half)]);
  const half = size.barWidth / 2;
  const wings = (along: number, side = half): Hider[] =>
    size.wings && heights.wing >= eyes
      ? [line('wing', along, side, side + size.wingWidth), line('wing', along, -side, -side - size.wingWidth)]
      : [];
  const board = (o.sizes?.height ?? heights.board) >= eyes ? [line('board', 0, -half, half)] : [];
  switch (o.kind) {
    case 'barJump':
      return wings(0);
    case 'panel':
    case 'wall':
      return [...wings(0), ...board];
    case 'spread':
      return [...wings(-size.depth / 2), ...wings(size.depth / 2, half + size.backBarLonger / 2)];
    case 'tunnel':
      return size.tunnelDiameter >= eyes ? footprint(o, stand).map((quad) => hider('tube', quad)) : [];
    case 'aFrame': {
      const high = (size.aFrameFootprint / 2) * (1 - eyes / heights.aFrame);
      return [block('frame', -high, high, size.aFrameWidth / 2)];
    }
    case 'dogWalk': {
      const end = size.dogWalkFootprint / 2;
      const [a, b] = plankHides.map(
        (share) => end - rampShare * 2 * end * Math.min(1, (share * eyes) / heights.dogWalk),
      ) as [number, number];
      const wide = size.plankWidth / 2;
      return [block('ramp', b, a, wide), block('ramp', -a, -b, wide)];
    }
    case 'seeSaw':
      return heights.seeSawStand >= eyes
        ? [block('stand', -standHalf, standHalf, size.plankWidth / 2 + 0.1)]
        : [];
    case 'table':
      return (o.sizes?.height ?? heights.table) >= eyes
        ? [block('top', -size.tableSide / 2, size.tableSide / 2, size.tableSide / 2)]
        : [];
    case 'longJump':
    case 'tyre':
    case 'weavePoles':
    case 'unknown':
      return [];
  }
}
