import type { GroundPoint } from '../course/points.ts';
import { headingTo, lengthOf } from '../course/pose.ts';
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
 * at the spot she runs on with the share of top speed that the cosine of the corner to `next` leaves.
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
  const corner = next && onTo ? Math.max(0, cosOfTurn(onTo, spot, next)) : 1;
  const leg = (speedThere: number): HandlerLeg => {
    const run = dash(metres, pace, standing.speed, speedThere);
    return { points, leaves: standing.leaves, arrives: standing.leaves + run.seconds, run };
  };
  return { stopping: leg(0), running: leg(corner * pace.topSpeed) };
}

function cosOfTurn(a: GroundPoint, b: GroundPoint, c: GroundPoint): number {
  if ((a.x === b.x && a.y === b.y) || (b.x === c.x && b.y === c.y)) return 0;
  return Math.cos(((headingTo(b, c) - headingTo(a, b)) * Math.PI) / 180);
}
