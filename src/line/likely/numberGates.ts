import type { DrawnSizes } from '../../course/equipment.ts';
import { drawnSizes } from '../../course/equipment.ts';
import type { ObstacleKind } from '../../course/kinds.ts';
import { mannerOf } from '../../course/kinds.ts';
import type { GroundPoint } from '../../course/points.ts';
import { lengthOf, type Pose } from '../../course/pose.ts';
import { halfBreadth, type DrawnStep } from '../../course/sequence.ts';
import { tunnelLine } from '../../course/tunnelLine.ts';
import type { Facing } from '../dubins.ts';
import type { Runner } from '../runner.ts';
import { fromFacing, point, type Gate, type Taking } from './gates.ts';
import { roundingSpeed } from './pace.ts';
import { straightIsClear, toNearest, type Box } from './solids.ts';

/** What the gates of a course are made from. */
export interface GateWish {
  readonly runner: Runner;
  readonly boxes: readonly Box[];
  /** Every bar across its middle and square. */
  readonly centred: boolean;
  /** Where she is said to land after this number. */
  readonly landing: GroundPoint | undefined;
  /** Place of the piece in the course's list. */
  readonly owner: number;
}

export const facing = ({ x, y, headingDegrees }: Pose): Facing => ({
  x,
  y,
  angle: (headingDegrees * Math.PI) / 180,
});

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** How much of the angle that she takes a bar at is left where the piece is deep or narrow (our assumption). */
const slicing: Partial<Record<ObstacleKind, number>> = { tyre: 0.35, spread: 0.6, longJump: 0.5 };
/** How far off its line a tunnel is entered at the most, degrees (our assumption). */
const tunnelEntry = 40;
/** Between these, degrees, she crosses the line of the poles where she goes in (our assumption). */
const weaveEntry = [12, 75] as const;

/** The gates that a number stands for: its own, and the end of a wing before a backside or after a wrap. */
export function gatesOf(drawn: DrawnStep, step: number, wish: GateWish): readonly Gate[] {
  const own = { ...ownGate(drawn, wish), step };
  const gates: Gate[] = [own];
  if (drawn.step.backside === true) gates.unshift(wingGate(drawn, [1, -1], wish));
  if (drawn.step.wrap) gates.push(wingGate(drawn, [drawn.step.wrap === 'left' ? 1 : -1], wish));
  return gates;
}

type OwnGate = Omit<Gate, 'step'>;

function ownGate(drawn: DrawnStep, wish: GateWish): OwnGate {
  const gate = plainGate(drawn, wish);
  const { landing } = wish;
  if (!landing || mannerOf(drawn.obstacle.kind) === 'jumped') return gate;
  return { ...gate, taking: (figures) => landedAt(gate.taking(figures), landing, wish) };
}

function plainGate(drawn: DrawnStep, wish: GateWish): OwnGate {
  const { kind, sizes } = drawn.obstacle;
  const size = drawnSizes(kind, sizes);
  const { runner } = wish;
  switch (kind) {
    case 'barJump':
    case 'panel':
    case 'wall':
    case 'spread':
    case 'longJump':
    case 'tyre':
      return barGate(drawn, size, wish);
    case 'tunnel':
      return tunnelGate(drawn, size, wish);
    case 'weavePoles':
      return weaveGate(drawn, size, wish);
    case 'aFrame':
      return straightGate(drawn, runner.aFrameSpeed, 0, wish);
    case 'dogWalk':
      return straightGate(drawn, runner.dogWalkSpeed, 0, wish);
    case 'seeSaw':
      return straightGate(drawn, runner.seeSawSpeed, runner.seeSawWait, wish);
    case 'table':
      return tableGate(drawn, size, wish);
    case 'unknown':
      return spotGate(drawn, wish);
  }
}

/** A bar: from take-off straight over it to landing, anywhere between its wings and at any angle she takes. */
function barGate(drawn: DrawnStep, size: DrawnSizes, wish: GateWish): OwnGate {
  const { runner, boxes, centred, landing, owner } = wish;
  const { kind } = drawn.obstacle;
  const middle = facing(drawn.entry);
  const half =
    (kind === 'tyre' ? size.tyreAperture : kind === 'longJump' ? size.longJumpWidth : size.barWidth) / 2;
  const depth = kind === 'spread' || kind === 'longJump' || kind === 'wall' ? size.depth / 2 : 0;
  const most = radians(runner.sliceMost * (slicing[kind] ?? 1));
  const others = boxes.filter((b) => b.owner !== owner);
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
      clear: !(narrow && Math.abs(offset) > 1e-9) && straightIsClear(others, entry, exit, runner.besideWing),
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
      { count: 5, between: true },
      { count: 7, between: true },
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
function landedAt(taking: Taking, landing: GroundPoint, { runner }: GateWish): Taking {
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

/** A facing and the straight piece to it, begun where she is clear of the piece itself. */
function led(end: Facing, back: 1 | -1, own: readonly Box[], gap: number): readonly [Facing, number] {
  for (let lead = 0.2; ; lead += 0.05) {
    const there = fromFacing(end, -back * lead);
    if (lead >= 2 || toNearest(own, there) >= gap + 0.01) return [there, lead];
  }
}

/** The end of a piece with the straight piece along which she clears it. */
interface Led {
  readonly end: Facing;
  readonly lead: Facing;
  readonly seconds: number;
  readonly clear: boolean;
}

/** Straight pieces before (1) or behind (-1) the ends of a piece, each made once. */
function leads(
  { runner, boxes, owner }: GateWish,
  back: 1 | -1,
  speed: number,
  endAt: (figure: number) => Facing,
): (figure: number) => Led {
  const own = boxes.filter((b) => b.owner === owner);
  const others = boxes.filter((b) => b.owner !== owner);
  const made = new Map<number, Led>();
  return (figure) => {
    const known = made.get(figure);
    if (known) return known;
    const end = endAt(figure);
    const [lead, metres] = led(end, back, own, runner.besideWing);
    const rate = back === 1 ? runner.braking : runner.pickUp;
    const one = {
      end,
      lead,
      // Where she stands at the end itself, the piece is part of the slowing down or picking up.
      seconds: speed > 0 ? metres / speed : Math.sqrt((2 * metres) / rate),
      clear: straightIsClear(others, lead, end, runner.besideWing),
    };
    if (made.size > 500) made.clear();
    made.set(figure, one);
    return one;
  };
}

/** A taking from one end of a piece to another. */
const takenFrom = (a: Led, b: Led, through: readonly GroundPoint[], seconds: number): Taking => ({
  entry: a.end,
  exit: b.end,
  through,
  seconds,
  before: a.lead,
  after: b.lead,
  leadSeconds: [a.seconds, b.seconds],
  offset: 0,
  slice: 0,
  clear: a.clear && b.clear,
});

function tunnelGate(drawn: DrawnStep, size: DrawnSizes, wish: GateWish): OwnGate {
  const { runner } = wish;
  const line = tunnelLine(drawn.stand, size.tunnelLength);
  const through = drawn.step.direction === 'forward' ? line : line.toReversed();
  const speed = Math.min(runner.topSpeed, runner.tunnelSpeed);
  const seconds = lengthOf(through) / speed;
  const mouth = facing(drawn.entry);
  const into = leads(wish, 1, speed, (turned) => fromFacing(mouth, 0, 0, turned * radians(tunnelEntry)));
  const out = leads(wish, -1, speed, () => facing(drawn.exit))(0);
  return {
    speedIn: speed,
    speedOut: speed,
    free: [{ count: wish.centred ? 1 : 7, between: !wish.centred }],
    taking: ([turned = 0]) => takenFrom(into(turned), out, through, seconds),
  };
}

/** Poles: in between the first two, the first at her left shoulder, out behind the last. */
function weaveGate(drawn: DrawnStep, size: DrawnSizes, wish: GateWish): OwnGate {
  const speed = Math.min(wish.runner.topSpeed, wish.runner.weaveSpeed);
  const gap = fromFacing(facing(drawn.entry), size.spacing / 2);
  const exit = facing(drawn.exit);
  const through = [point(gap), point(exit)];
  const seconds = lengthOf(through) / speed;
  const [least, most] = weaveEntry;
  const into = leads(wish, 1, speed, (turned) =>
    fromFacing(gap, 0, 0, radians(least + ((turned + 1) / 2) * (most - least))),
  );
  const out = leads(wish, -1, speed, () => exit)(0);
  return {
    speedIn: speed,
    speedOut: speed,
    free: [{ count: 7, between: true }],
    taking: ([turned = 0]) => takenFrom(into(turned), out, through, seconds),
  };
}

/** A contact obstacle: on at one end, off at the other, along its axis. */
function straightGate(drawn: DrawnStep, pace: number, wait: number, wish: GateWish): OwnGate {
  const speed = Math.min(wish.runner.topSpeed, pace);
  const [entry, exit] = [facing(drawn.entry), facing(drawn.exit)];
  const through = [point(entry), point(exit)];
  const on = leads(wish, 1, speed, () => entry)(0);
  const off = leads(wish, -1, speed, () => exit)(0);
  const taking = takenFrom(on, off, through, lengthOf(through) / speed + wait);
  return { speedIn: speed, speedOut: speed, free: [], taking: () => taking };
}

/** A table: onto it from any side but the far one, a stop, and off it any way. */
function tableGate(drawn: DrawnStep, size: DrawnSizes, wish: GateWish): OwnGate {
  const middle = facing(drawn.entry);
  const edge = size.tableSide / 2;
  const onto = leads(wish, 1, 0, (turned) =>
    fromFacing(fromFacing(middle, 0, 0, (turned * Math.PI) / 2), -edge),
  );
  const off = leads(wish, -1, 0, (turned) => fromFacing(fromFacing(middle, 0, 0, turned * Math.PI), edge));
  return {
    speedIn: 0,
    speedOut: 0,
    free: [
      { count: 7, between: true },
      { count: 12, between: true, round: true },
    ],
    taking: ([on = 0, away = 0]) => {
      const [a, b] = [onto(on), off(away)];
      return takenFrom(a, b, [point(a.end), point(middle), point(b.end)], wish.runner.tableWait);
    },
  };
}

/** An obstacle of unknown kind: a spot that is run over, any way. */
function spotGate(drawn: DrawnStep, { runner }: GateWish): OwnGate {
  const middle = facing(drawn.entry);
  return {
    speedIn: runner.topSpeed,
    speedOut: runner.topSpeed,
    free: [{ count: 16, between: true, round: true }],
    taking: ([turned = 0]) => spot(fromFacing(middle, 0, 0, turned * Math.PI), true),
  };
}

/** A facing that is run through. */
export const spot = (at: Facing, clear: boolean): Taking => ({
  entry: at,
  exit: at,
  through: [],
  seconds: 0,
  before: at,
  after: at,
  leadSeconds: [0, 0],
  offset: 0,
  slice: 0,
  clear,
});

/** The end of a wing that is rounded against the way the bar is taken; where both may be, either of them. */
function wingGate(drawn: DrawnStep, sides: readonly (1 | -1)[], { runner, boxes }: GateWish): Gate {
  const middle = facing(drawn.entry);
  const speed = roundingSpeed(runner);
  const near = halfBreadth(drawn.obstacle) + runner.besideWing + 0.03;
  return {
    step: null,
    speedIn: speed,
    speedOut: speed,
    free: [
      { count: sides.length, between: false },
      { count: 5, between: true },
      { count: 3, between: true },
    ],
    taking: ([which = 0, turned = 0, out = 0]) => {
      const side = sides.length === 1 ? (sides[0] ?? 1) : which < 0 ? 1 : -1;
      const aside = side * (near + ((out + 1) / 2) * 0.8);
      const at = fromFacing(middle, 0, aside, Math.PI + turned * radians(50));
      return spot(at, toNearest(boxes, at) >= runner.besideWing);
    },
  };
}
