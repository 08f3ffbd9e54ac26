import type { DrawnSizes } from '../../course/equipment.ts';
import type { ObstacleKind } from '../../course/kinds.ts';
import type { GroundPoint } from '../../course/points.ts';
import type { Pose } from '../../course/pose.ts';
import type { DrawnStep } from '../../course/sequence.ts';
import type { Facing } from '../dubins.ts';
import type { Runner } from '../runner.ts';
import { fromFacing, point, type Gate, type Taking } from './gates.ts';
import { straightIsClear, type Solids } from './solids.ts';

/** What the gates of a course are made from. */
export interface GateWish {
  readonly runner: Runner;
  readonly solids: Solids;
  /** Every bar across its middle and square. */
  readonly centred: boolean;
  /** Where she is said to land after this number. */
  readonly landing: GroundPoint | undefined;
  /** Id of the piece. */
  readonly owner: string;
}

export const facing = ({ x, y, headingDegrees }: Pose): Facing => ({
  x,
  y,
  angle: (headingDegrees * Math.PI) / 180,
});

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** A gate before it is known which of the numbers it belongs to. */
export type OwnGate = Omit<Gate, 'step'>;

/** How much of the angle that she takes a bar at is left where the piece is deep or narrow (our assumption). */
const slicing: Partial<Record<ObstacleKind, number>> = { tyre: 0.35, spread: 0.6, longJump: 0.5 };
/** A bar: from take-off straight over it to landing, anywhere between its wings and at any angle she takes. */
export function barGate(drawn: DrawnStep, size: DrawnSizes, wish: GateWish): OwnGate {
  const { runner, solids, centred, landing, owner } = wish;
  const { kind } = drawn.obstacle;
  const middle = facing(drawn.entry);
  const half =
    (kind === 'tyre' ? size.tyreAperture : kind === 'longJump' ? size.longJumpWidth : size.barWidth) / 2;
  const depth = kind === 'spread' || kind === 'longJump' || kind === 'wall' ? size.depth / 2 : 0;
  const most = radians(runner.sliceMost * (slicing[kind] ?? 1));
  /** How far off the middle there is room between the wings, at this angle. */
  const roomAt = (slice: number): number =>
    Math.max(0, half - runner.besideWing / Math.cos(slice) - depth * Math.tan(Math.abs(slice)));
  const flight = (offset: number, slice: number, to?: GroundPoint): Taking => {
    const over = fromFacing(middle, 0, offset, slice);
    const more = depth / Math.max(0.3, Math.cos(slice));
    const entry = fromFacing(over, -runner.takeOff - more);
    const exit = to ? { ...to, angle: over.angle } : fromFacing(over, runner.landing + more);
    const metres = Math.hypot(exit.x - entry.x, exit.y - entry.y);
    const narrow = Math.abs(offset) > roomAt(slice) + 1e-9;
    return {
      entry,
      exit,
      through: [point(entry), point(exit)],
      seconds: metres / runner.topSpeed,
      before: entry,
      after: exit,
      leadSeconds: [0, 0],
      offset,
      slice,
      clear:
        !(narrow && Math.abs(offset) > 1e-9) &&
        straightIsClear(solids.boxes, owner, entry, exit, runner.besideWing),
    };
  };
  const speeds = { speedIn: runner.topSpeed, speedOut: runner.topSpeed };
  if (landing) {
    const [ahead, aside] = into(middle, landing);
    return {
      ...speeds,
      free: [{ count: centred ? 1 : 7, between: !centred }],
      taking: ([across = 0]) => {
        const offset = across * Math.max(0, half - runner.besideWing);
        // Where she would land before the bar there is no flight there: she goes over it straight, and from it there.
        return ahead > 0.2
          ? flight(offset, Math.atan2(aside - offset, ahead), point(landing))
          : landedAt(flight(offset, 0), landing, wish);
      },
    };
  }
  if (centred) return { ...speeds, free: [], taking: () => flight(0, 0) };
  return {
    ...speeds,
    free: [
      { count: 7, between: true },
      { count: 11, between: true },
    ],
    taking: ([across = 0, turned = 0]) => flight(across * roomAt(turned * most), turned * most),
  };
}

/** Where a point lies as seen from a facing: metres ahead and to the left. */
function into(f: Facing, { x, y }: GroundPoint): readonly [number, number] {
  const [cos, sin] = [Math.cos(f.angle), Math.sin(f.angle)];
  return [(x - f.x) * cos + (y - f.y) * sin, (y - f.y) * cos - (x - f.x) * sin];
}

/** The same taking, but that she is said to come out at a place of the coach's choice. */
export function landedAt(taking: Taking, landing: GroundPoint, { runner }: GateWish): Taking {
  const [ahead, aside] = into(taking.exit, landing);
  const far = Math.hypot(ahead, aside);
  const exit = {
    ...point(landing),
    angle: far < 1e-6 ? taking.exit.angle : taking.exit.angle + Math.atan2(aside, ahead),
  };
  return {
    ...taking,
    exit,
    after: exit,
    through: [...taking.through, point(landing)],
    seconds: taking.seconds + far / runner.topSpeed,
    leadSeconds: [taking.leadSeconds[0], 0],
  };
}
