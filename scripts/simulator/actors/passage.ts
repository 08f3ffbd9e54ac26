import { clamp, cosine, direction, lengthOf, mix, sine, smoothStep } from '../base/exact.ts';
import type { Gate } from '../ground/gate.ts';
import { bodySurface, WEAVE_ASIDE, WEAVE_LEAD } from '../ground/gate.ts';
import { dogParameters, valueOf } from '../parameters.ts';
import type { Running } from './steering.ts';

/** Her nose is this far ahead of her centre; her paws reach this far ahead when stepping on, behind when stepping off. */
export const NOSE = 0.72;
export const STEP_ON = 0.4;
export const STEP_OFF = 0.46;
/** Past the last pole she is free again this far after the end of the way. */
export const WEAVE_AFTER = 0.35;

/** The way through a tunnel, along poles or over a contact obstacle. */
export interface Passage {
  readonly gate: Gate;
  /** Metres past the entry. */
  along: number;
  readonly began: number;
  /** Where and how she came in, to the left of the line; gone after `settle` metres. */
  readonly lateral: number;
  readonly slope: number;
  readonly settle: number;
  /** Entered at the second gap. */
  readonly wrong: boolean;
  /** Leaves early, this far along; Infinity: does not. */
  readonly leavesAt: number;
  entered: boolean;
  left: boolean;
  tipped: number;
}

/** Begins a passage from where she is; `sideways` is the grip she may use to come onto the line. */
export function beginPassage(
  gate: Gate,
  body: Running,
  along: number,
  lateral: number,
  slope: number,
  wrong: boolean,
  leavesAt: number,
): Passage {
  const poles = gate.obstacle.kind === 'weavePoles';
  const target = (at: number): number => (poles ? WEAVE_ASIDE + weaveTarget(gate, wrong, at) : 0);
  const off = lateral - target(along);
  const aslant = slope - (target(along + 0.01) - target(along)) / 0.01;
  const v2 = Math.max(4, body.speed * body.speed);
  const grip = (poles ? 6 : 7) / v2;
  const m = 4 * Math.abs(aslant);
  const settle = (m + Math.sqrt(m * m + 24 * grip * Math.abs(off))) / (2 * grip);
  return {
    gate,
    along,
    began: along,
    lateral: off,
    slope: aslant,
    settle: clamp(settle, 0.6, Math.max(0.6, gate.through - along)),
    wrong,
    leavesAt,
    entered: false,
    left: false,
    tipped: 0,
  };
}

/** Where she wants to be beside the row of poles (left positive), `along` metres after the entry. */
function weaveTarget(gate: Gate, wrong: boolean, along: number): number {
  const phase = ((along - WEAVE_LEAD) / 0.6) * Math.PI;
  const swing = valueOf(dogParameters.weaveSwing) * cosine(phase);
  const inside =
    smoothStep(-0.2, 1.1, along) * (1 - smoothStep(gate.through - 0.6, gate.through + WEAVE_AFTER, along));
  if (!wrong) return -swing * inside;
  // Past the second pole on its right, then one gap late in everything.
  return mix(-WEAVE_ASIDE, swing, smoothStep(0.7, 1.9, along));
}

/** Where the way leads `along` metres after the entry: centre of mass in plan. */
function wayAt(p: Passage, along: number): { x: number; y: number } {
  const { gate } = p;
  const u = clamp((along - p.began) / p.settle, 0, 1);
  const fade = 1 - u * u * (3 - 2 * u);
  let lateral = p.lateral * fade + p.slope * p.settle * u * (1 - u) * (1 - u);
  if (gate.line) {
    const on = gate.line.smooth(along);
    if (lateral === 0) return on;
    const heading = gate.line.at(along).heading;
    return { x: on.x - lateral * sine(heading), y: on.y + lateral * cosine(heading) };
  }
  if (gate.obstacle.kind === 'weavePoles') lateral += WEAVE_ASIDE + weaveTarget(gate, p.wrong, along);
  const c = cosine(gate.axis);
  const s = sine(gate.axis);
  return { x: gate.x + along * c - lateral * s, y: gate.y + along * s + lateral * c };
}

function paceOf(p: Passage, weaveSpeed: number): number {
  const d = dogParameters;
  switch (p.gate.obstacle.kind) {
    case 'tunnel':
      return p.gate.pace;
    case 'weavePoles':
      return weaveSpeed;
    case 'aFrame': {
      const base = valueOf(d.frameSpeed);
      return mix(base - 0.7, base + 0.6, smoothStep(0.8, 3.2, p.along));
    }
    case 'dogWalk':
      return valueOf(d.walkSpeed);
    default: {
      const middle = p.gate.through / 2;
      if (p.tipped < 1 && p.along > middle - 0.2) return Math.max(0, 3.2 * (middle + 0.75 - p.along));
      return valueOf(d.sawSpeed) + 0.6 * p.tipped;
    }
  }
}

/** Height of her centre on the way. */
function heightAt(p: Passage): number {
  const stand = valueOf(dogParameters.standingCentre);
  switch (p.gate.obstacle.kind) {
    case 'tunnel': {
      const inside = smoothStep(-0.6, 0.3, p.along) * (1 - smoothStep(-0.3, 0.5, p.along - p.gate.through));
      return mix(stand, 0.36, inside);
    }
    case 'weavePoles':
      return stand - 0.03 * smoothStep(0, 0.6, p.along);
    default:
      return stand + bodySurface(p.gate.obstacle, p.along, p.tipped);
  }
}

/** Moves her along the way by `dt`; her heading is the way she moves. */
export function pass(p: Passage, body: Running & { z: number }, weaveSpeed: number, dt: number): void {
  // Metres on the ground for each metre along: more where she swings or comes in aslant.
  const ahead = wayAt(p, p.along + 0.01);
  const stretch = clamp(lengthOf(ahead.x - body.x, ahead.y - body.y) / 0.01, 0.8, 1.4);
  const wanted = paceOf(p, weaveSpeed) * (p.gate.obstacle.kind === 'weavePoles' ? stretch : 1);
  const change = clamp((wanted - body.speed) / 0.12, -valueOf(dogParameters.braking), 6);
  body.speed = Math.max(0, body.speed + change * dt);
  p.along += (body.speed * dt) / stretch;
  if (p.gate.obstacle.kind === 'seeSaw' && p.along > p.gate.through / 2 + 0.2) {
    p.tipped = Math.min(1, p.tipped + dt / valueOf(dogParameters.sawTime));
  }
  const way = wayAt(p, p.along);
  const moved = lengthOf(way.x - body.x, way.y - body.y);
  if (moved > 1e-6) body.heading = direction(way.y - body.y, way.x - body.x);
  body.x = way.x;
  body.y = way.y;
  const rise = heightAt(p) - body.z;
  // A see-saw drops under her and the step up is sudden: her middle follows within a moment.
  body.z += rise * Math.min(1, dt / 0.03);
}
