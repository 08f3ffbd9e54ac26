import type { GroundPoint } from '../course/points.ts';
import { headingTo, lengthOf, plainHeading } from '../course/pose.ts';
import { dash, type Dash, type HandlerPace } from './pace.ts';
import { wayRound, type Solid } from './wayRound.ts';

/** Where the handler is free to go on from, when, and how fast she is then. */
export interface Standing {
  readonly at: GroundPoint;
  /** Seconds from the dog's first movement. */
  readonly leaves: number;
  /** m/s on the way she came; 0 where she stood. */
  readonly speed: number;
}

/** The handler's way from one spot to the next. */
export interface HandlerLeg {
  readonly points: readonly GroundPoint[];
  readonly leaves: number;
  readonly arrives: number;
  readonly run: Dash;
}

/** A way to a spot: one on which she stops there, and one on which she runs on to the spot after it. */
export interface WaysThere {
  readonly stopping: HandlerLeg;
  readonly running: HandlerLeg;
}

/**
 * The quickest ways from where she stands to a spot, round equipment. Bends on the way itself cost length, not speed;
 * at the spot she runs on toward `next` as fast as the corner lets her.
 */
export function waysTo(
  standing: Standing,
  spot: GroundPoint,
  next: GroundPoint | null,
  pace: HandlerPace,
  solid: Solid,
): WaysThere {
  const points = wayRound(standing.at, spot, solid);
  const metres = lengthOf(points);
  const onTo = points.at(-2);
  const round = next && onTo ? cornerSpeed(onTo, spot, next, pace) : pace.topSpeed;
  const leg = (speedThere: number): HandlerLeg => {
    const run = dash(metres, pace, standing.speed, speedThere);
    return { points, leaves: standing.leaves, arrives: standing.leaves + run.seconds, run };
  };
  return { stopping: leg(0), running: leg(round) };
}

/** How near to a corner she keeps when she runs round it, metres. */
const cuts = 0.5;

/**
 * The speed at which she can run from `a` round `b` to `c`: on the circle that touches both ways and comes within
 * `cuts` of the corner, of radius cuts * cos(h) / (1 - cos(h)) for a corner of 2h, with no more sideways acceleration
 * than she brakes with (v^2 = a r).
 */
function cornerSpeed(a: GroundPoint, b: GroundPoint, c: GroundPoint, pace: HandlerPace): number {
  const stays = (a.x === b.x && a.y === b.y) || (b.x === c.x && b.y === c.y);
  if (stays) return 0;
  const half = Math.abs(plainHeading(headingTo(b, c) - headingTo(a, b))) / 2;
  const cos = Math.cos((half * Math.PI) / 180);
  const radius = (cuts * cos) / Math.max(1 - cos, 1e-9);
  return Math.min(pace.topSpeed, Math.sqrt(pace.braking * Math.max(0, radius)));
}
