import type { DogTraits, Happenings } from './actors/dogWorld.ts';
import type { Handling } from './actors/handling.ts';
import { randomStream } from './base/random.ts';
import type { FrameTimes } from './frameTimes.ts';
import { demoCourse } from './ground/demoCourse.ts';
import type { Course } from './ground/equipment.ts';
import type { RunRecord } from './run/record.ts';
import { simulateRun } from './run/run.ts';
import { truthOf } from './truth.ts';

export interface SimulateOrder {
  readonly seed: number;
  readonly handling: Handling;
  readonly frameTimes: FrameTimes;
  readonly course?: Course;
  readonly happenings?: Happenings;
  readonly traits?: Partial<DogTraits>;
  /** Run time of the first frame; drawn from the seed, within one frame, where it is not given. */
  readonly origin?: number;
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
  const [num, den] = order.frameTimes.timeBase;
  const gap = (((order.frameTimes.pts[1] ?? 0) - (order.frameTimes.pts[0] ?? 0)) * num) / den;
  const origin = order.origin ?? randomStream(order.seed).branch('phase').uniform() * gap;
  const truth = truthOf(run, order.frameTimes, origin, null, {
    name: `seed ${order.seed}`,
    dog: 'drawn',
    handler: 'drawn',
    film: null,
  });
  return { run, truth };
}
