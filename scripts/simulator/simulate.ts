import type { DogTraits, Happenings } from './actors/dogWorld.ts';
import type { Handling } from './actors/handling.ts';
import { randomStream } from './base/random.ts';
import type { Exposures } from './film/order.ts';
import type { FrameTimes } from './frameTimes.ts';
import { secondsOf } from './frameTimes.ts';
import { demoCourse } from './ground/demoCourse.ts';
import type { Course } from './ground/equipment.ts';
import type { RunRecord } from './run/record.ts';
import { simulateRun } from './run/run.ts';
import { truthOf } from './truth/truth.ts';

export interface SimulateOrder {
  readonly seed: number;
  readonly handling: Handling;
  readonly frameTimes: FrameTimes;
  readonly course?: Course;
  readonly happenings?: Happenings;
  readonly traits?: Partial<DogTraits>;
  /** Run time of the first frame; drawn from the seed, within one frame, where it is not given. */
  readonly origin?: number;
  /** Positions for every frame in the truth as well; slower. */
  readonly perFrame?: boolean;
}

/** Frames that show the run in real time, the first at `origin`. */
export function inRealTime(frames: FrameTimes, origin: number): Exposures {
  return { frames, captured: secondsOf(frames).map((t) => t + origin) };
}

/** A first frame somewhere within one frame's length, drawn from a seed. */
export function randomPhase(seed: number, frames: FrameTimes): number {
  const [num, den] = frames.timeBase;
  const gap = (((frames.pts[1] ?? 0) - (frames.pts[0] ?? 0)) * num) / den;
  return randomStream(seed).branch('phase').uniform() * gap;
}

/** One run without a picture: the run itself and its truth at the given frames. */
export function simulate(order: SimulateOrder): { readonly run: RunRecord; readonly truth: object } {
  const run = simulateRun({
    seed: order.seed,
    course: order.course ?? demoCourse,
    handling: order.handling,
    happenings: order.happenings ?? { natural: true },
    ...(order.traits ? { traits: order.traits } : {}),
  });
  const origin = order.origin ?? randomPhase(order.seed, order.frameTimes);
  const header = { name: `seed ${order.seed}`, dog: 'drawn', handler: 'drawn', film: null };
  const extras = { perFrame: order.perFrame === true, counterfactuals: [] };
  return { run, truth: truthOf(run, inRealTime(order.frameTimes, origin), null, header, extras) };
}
