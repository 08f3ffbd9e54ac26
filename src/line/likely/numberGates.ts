import type { DrawnSizes } from '../../course/equipment.ts';
import { drawnSizes } from '../../course/equipment.ts';
import { mannerOf } from '../../course/kinds.ts';
import type { GroundPoint } from '../../course/points.ts';
import { lengthOf } from '../../course/pose.ts';
import { halfBreadth, type DrawnStep } from '../../course/sequence.ts';
import { tunnelLine } from '../../course/tunnelLine.ts';
import type { Facing } from '../dubins.ts';
import { barGate, facing, landedAt, radians, type GateWish, type OwnGate } from './barGate.ts';
import { fromFacing, point, spot, type Gate, type Taking } from './gates.ts';
import { roundingSpeed } from './pace.ts';
import { straightIsClear, toNearest, type Box } from './solids.ts';

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
}

/** Straight pieces before (1) or behind (-1) the ends of a piece, each made once. */
function leads(
  { runner, solids, owner }: GateWish,
  back: 1 | -1,
  speed: number,
  endAt: (figure: number) => Facing,
): (figure: number) => Led {
  const own = solids.boxes.filter((b) => b.owner === owner);
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
    };
    if (made.size > 500) made.clear();
    made.set(figure, one);
    return one;
  };
}

/** A taking from one end of a piece to another. */
const takenFrom = (
  { runner, solids, owner }: GateWish,
  a: Led,
  b: Led,
  through: readonly GroundPoint[],
  seconds: number,
): Taking => ({
  entry: a.end,
  exit: b.end,
  through,
  seconds,
  before: a.lead,
  after: b.lead,
  leadSeconds: [a.seconds, b.seconds],
  offset: 0,
  slice: 0,
  clear:
    straightIsClear(solids.boxes, owner, a.lead, a.end, runner.besideWing) &&
    straightIsClear(solids.boxes, owner, b.end, b.lead, runner.besideWing),
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
    free: [{ count: wish.centred ? 1 : 9, between: !wish.centred }],
    taking: ([turned = 0]) => takenFrom(wish, into(turned), out, through, seconds),
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
    free: [{ count: 9, between: true }],
    taking: ([turned = 0]) => takenFrom(wish, into(turned), out, through, seconds),
  };
}

/** A contact obstacle: on at one end, off at the other, along its axis. */
function straightGate(drawn: DrawnStep, pace: number, wait: number, wish: GateWish): OwnGate {
  const speed = Math.min(wish.runner.topSpeed, pace);
  const [entry, exit] = [facing(drawn.entry), facing(drawn.exit)];
  const through = [point(entry), point(exit)];
  const on = leads(wish, 1, speed, () => entry)(0);
  const off = leads(wish, -1, speed, () => exit)(0);
  const taking = takenFrom(wish, on, off, through, lengthOf(through) / speed + wait);
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
      return takenFrom(wish, a, b, [point(a.end), point(middle), point(b.end)], wish.runner.tableWait);
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

/** The end of a wing that is rounded against the way the bar is taken; where both may be, either of them. */
function wingGate(drawn: DrawnStep, sides: readonly (1 | -1)[], { runner, solids }: GateWish): Gate {
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
      return spot(at, toNearest(solids.boxes, at) >= runner.besideWing);
    },
  };
}
