import { headingTo, type Pose } from '../course/pose.ts';
import type { LikelyLine } from '../line/line.ts';
import { alongWay, dogAt, type DogNow } from './dogTimes.ts';
import type { HandlerStay, PlanTimes } from './spare.ts';

/** Where the handler is at a moment, and what she does there. */
export interface HandlerNow extends Pose {
  readonly doing: 'waits' | 'runs' | 'supports' | 'turns';
  /** The number that it is for: the support or cross she is at, or runs to; null where there is none. */
  readonly place: number | null;
}

/** Dog and handler along a plan, second by second. */
export interface WalkThrough {
  /** From the dog's first movement to her last obstacle and the end of the line, or the handler's last act. */
  readonly seconds: number;
  /** The dog: null where there is no line. */
  dog(t: number): DogNow | null;
  /** The handler: null where there is no start. */
  handler(t: number): HandlerNow | null;
}

/** Plays a plan: the dog along her line, the handler along the way that `timePlan` found. */
export function walkThrough(line: LikelyLine, times: PlanTimes): WalkThrough {
  const { stays } = times;
  const lastAct = stays.at(-1)?.leaves ?? 0;
  return {
    seconds: Math.max(line.seconds, lastAct),
    dog: (t) => dogAt(line, t),
    handler: (t) => handlerAt(line, stays, t),
  };
}

function handlerAt(line: LikelyLine, stays: readonly HandlerStay[], t: number): HandlerNow | null {
  const coming = stays.findIndex((stay) => t < stay.leaves);
  const at = coming < 0 ? stays.at(-1) : stays[coming];
  if (!at) return null;
  const place = placeOf(at);
  if (at.leg && t < at.arrives) {
    const { leg } = at;
    const part = leg.run.metres > 0 ? leg.run.at(t - leg.leaves) / leg.run.metres : 1;
    const pose = alongWay(leg.points, part);
    if (pose) return { ...pose, doing: turns(at, t) ? 'turns' : 'runs', place };
  }
  // Standing still she looks at her dog; shoulders and feet turn with her.
  const dog = dogAt(line, t);
  const headingDegrees = dog ? headingTo(at.spot.at, dog) : 0;
  return { ...at.spot.at, headingDegrees, doing: doingAt(at, t), place };
}

const placeOf = ({ does }: HandlerStay): number | null =>
  does.what === 'leadOut' ? null : does.what === 'support' ? does.support.place : does.cross.place;

const turns = ({ does }: HandlerStay, t: number): boolean =>
  does.what === 'cross' && t >= does.begins && t < does.finishes;

function doingAt(stay: HandlerStay, t: number): HandlerNow['doing'] {
  if (stay.does.what === 'support') return 'supports';
  return turns(stay, t) ? 'turns' : 'waits';
}
