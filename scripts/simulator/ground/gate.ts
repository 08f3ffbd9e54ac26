import { clamp, cosine, direction, lengthOf, sine, wrapAngle } from '../base/exact.ts';
import type { Course, Obstacle, Place } from './equipment.ts';
import type { TunnelLine } from './tunnelLine.ts';
import { sharpestBend, tunnelLine } from './tunnelLine.ts';
import { dogParameters, valueOf } from '../parameters.ts';

/** Where and in which direction an obstacle is entered, and where it lets the dog out. */
export interface Gate {
  readonly place: Place;
  readonly obstacle: Obstacle;
  readonly jump: boolean;
  readonly x: number;
  readonly y: number;
  /** Direction straight through. */
  readonly axis: number;
  /** How far from the axis the dog may come in, radians. */
  readonly slice: number;
  readonly exitX: number;
  readonly exitY: number;
  readonly exitHeading: number;
  /** Metres from entry to exit along the way through. */
  readonly through: number;
  /** Centre line of a tunnel, and the speed its sharpest bend allows. */
  readonly line: TunnelLine | null;
  readonly pace: number;
}

/** The way through weave poles begins this far before the first pole, and this far to its right. */
export const WEAVE_LEAD = 0.25;
export const WEAVE_ASIDE = 0.13;

const slices: Readonly<Record<Obstacle['kind'], number>> = {
  barJump: 0.6,
  spread: 0.35,
  longJump: 0.3,
  tyre: 0.45,
  tunnel: 0.6,
  weavePoles: 0.15,
  aFrame: 0.12,
  dogWalk: 0.06,
  seeSaw: 0.06,
};

function isJump(obstacle: Obstacle): boolean {
  return ['barJump', 'spread', 'longJump', 'tyre'].includes(obstacle.kind);
}

/** The gate of one place. Throws where the place names an obstacle that does not stand on the course. */
export function gateOf(course: Course, place: Place): Gate {
  const obstacle = course.obstacles.find((o) => o.id === place.obstacleId);
  if (!obstacle)
    throw new Error(`Place ${place.number} names no obstacle of the course: ${place.obstacleId}`);
  const axis = wrapAngle(obstacle.angle + (place.reversed ? Math.PI : 0));
  const c = cosine(axis);
  const s = sine(axis);
  const base = { place, obstacle, jump: isJump(obstacle), slice: slices[obstacle.kind] };
  if (obstacle.kind === 'tunnel' && obstacle.bends) {
    const line = tunnelLine(obstacle.bends, place.reversed);
    const a = line.at(0);
    const b = line.at(line.length);
    const bend = sharpestBend(line);
    const grip = valueOf(dogParameters.tunnelLateralAcceleration);
    return {
      ...base,
      x: a.x,
      y: a.y,
      axis: a.heading,
      exitX: b.x,
      exitY: b.y,
      exitHeading: b.heading,
      through: line.length,
      line,
      pace: Math.min(valueOf(dogParameters.tunnelSpeed), Math.sqrt(grip / Math.max(bend, 1e-3))),
    };
  }
  if (obstacle.kind === 'weavePoles') {
    const long = ((obstacle.sizes['poles'] ?? 12) - 1) * (obstacle.sizes['spacing'] ?? 0.6);
    // The first pole stands at the dog's left shoulder: she comes in to the right of the row.
    return {
      ...base,
      x: obstacle.x - WEAVE_LEAD * c + WEAVE_ASIDE * s,
      y: obstacle.y - WEAVE_LEAD * s - WEAVE_ASIDE * c,
      axis,
      exitX: obstacle.x + (long + WEAVE_LEAD) * c,
      exitY: obstacle.y + (long + WEAVE_LEAD) * s,
      exitHeading: axis,
      through: long + 2 * WEAVE_LEAD,
      line: null,
      pace: 0,
    };
  }
  const half = base.jump ? 0 : (obstacle.sizes['footprint'] ?? 0) / 2;
  return {
    ...base,
    x: obstacle.x - half * c,
    y: obstacle.y - half * s,
    axis,
    exitX: obstacle.x + half * c,
    exitY: obstacle.y + half * s,
    exitHeading: axis,
    through: 2 * half,
    line: null,
    pace: 0,
  };
}

/** Turn from this gate to the next: the signed change of direction the dog has to make, radians. */
export function turnAfter(gate: Gate, next: Gate): number {
  const out = direction(next.y - gate.exitY, next.x - gate.exitX);
  const chord = wrapAngle(out - gate.exitHeading);
  const arrive = wrapAngle(next.axis - gate.exitHeading);
  const far = lengthOf(next.x - gate.exitX, next.y - gate.exitY);
  const both = 0.75 * chord + 0.25 * arrive;
  return Math.abs(wrapAngle(chord - arrive)) > 2.2 || far < 0.5 ? chord : clamp(both, -Math.PI, Math.PI);
}

/** Height of the walking surface above the grass, `along` metres after the foot of a contact obstacle. */
export function surfaceHeight(obstacle: Obstacle, along: number, tipped: number): number {
  const foot = obstacle.sizes['footprint'] ?? 0;
  if (along <= 0 || along >= foot) return 0;
  if (obstacle.kind === 'aFrame') {
    const apex = obstacle.sizes['apex'] ?? 1.7;
    return apex * (1 - Math.abs(along - foot / 2) / (foot / 2));
  }
  if (obstacle.kind === 'dogWalk') {
    const ramp = (foot - (obstacle.sizes['plank'] ?? 3.6)) / 2;
    const top = obstacle.sizes['height'] ?? 1.2;
    return top * Math.min(1, along / ramp, (foot - along) / ramp);
  }
  // See-saw: `tipped` runs from 0 (entry end down) to 1 (exit end down).
  const pivot = obstacle.sizes['pivot'] ?? 0.6;
  const slope = ((1 - 2 * tipped) * pivot) / (foot / 2);
  return Math.max(0, pivot + slope * (along - foot / 2));
}

/** The same surface as the middle of a body feels it: kinks rounded over the length between fore and hind paws. */
export function bodySurface(obstacle: Obstacle, along: number, tipped: number): number {
  let sum = 0;
  for (const [off, weight] of bodySpan) sum += weight * surfaceHeight(obstacle, along + off, tipped);
  return sum;
}

const bodySpan: readonly (readonly [number, number])[] = [
  [-0.4, 0.06],
  [-0.3, 0.12],
  [-0.2, 0.16],
  [-0.1, 0.16],
  [0, 0.16],
  [0.1, 0.12],
  [0.2, 0.1],
  [0.3, 0.08],
  [0.4, 0.04],
];
