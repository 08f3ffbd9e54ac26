import { Dog } from '../actors/dog.ts';
import type { DogNotice, DogTraits, Happenings } from '../actors/dogWorld.ts';
import { Doing, drawTraits } from '../actors/dogWorld.ts';
import { Handler } from '../actors/handler.ts';
import type { Handling } from '../actors/handling.ts';
import { randomStream } from '../base/random.ts';
import type { Course } from '../ground/equipment.ts';
import type { Gate } from '../ground/gate.ts';
import { gateOf, turnAfter } from '../ground/gate.ts';
import { Conduct, governedPlaces } from './conduct.ts';
import { Perception } from './perception.ts';
import type { DogTrace, Happened, HandlerTrace, RunRecord, Said, Span } from './record.ts';
import { STEP } from './record.ts';
import { footings, gravity, valueOf } from '../parameters.ts';
import { StartLine } from './startLine.ts';

export interface RunOrder {
  readonly seed: number;
  readonly course: Course;
  readonly handling: Handling;
  readonly happenings: Happenings;
  readonly traits?: Partial<DogTraits>;
  /** Seconds after which a run that goes nowhere is ended. */
  readonly longest?: number;
}

const events = ['barDown', 'wrongEntry', 'popOut', 'stop', 'runBy', 'offCourse', 'missedContact'];

interface Ways {
  readonly gates: readonly Gate[];
  readonly traps: readonly Gate[];
  readonly turns: readonly number[];
}

const known = new WeakMap<Course, Ways>();

function waysOf(course: Course): Ways {
  const before = known.get(course);
  if (before) return before;
  const gates = course.places.map((place) => gateOf(course, place));
  const traps = course.obstacles.flatMap((o) => {
    const both = [false, true].map((reversed) => gateOf(course, { number: 0, obstacleId: o.id, reversed }));
    return both.filter((g) => g.jump);
  });
  const turns = gates.map((gate, i) => {
    const next = gates[i + 1];
    return next ? turnAfter(gate, next) : 0;
  });
  const ways = { gates, traps, turns };
  known.set(course, ways);
  return ways;
}

function dogTrace(most: number): DogTrace {
  return {
    x: new Float64Array(most),
    y: new Float64Array(most),
    z: new Float64Array(most),
    heading: new Float64Array(most),
    speed: new Float64Array(most),
    doing: new Uint8Array(most),
    tipped: new Float64Array(most),
    index: new Uint8Array(most),
  };
}

function handlerTrace(most: number): HandlerTrace {
  return {
    x: new Float64Array(most),
    y: new Float64Array(most),
    heading: new Float64Array(most),
    speed: new Float64Array(most),
    shoulders: new Float64Array(most),
    arm: new Float64Array(most),
    armSide: new Int8Array(most),
  };
}

/** Rooms to write in, kept from run to run: samples are copied out at the end. */
const scratch = { dog: dogTrace(28_000), handler: handlerTrace(28_000) };

function cut<T extends object>(way: T, n: number): T {
  const out: Partial<Record<string, unknown>> = {};
  for (const [name, values] of Object.entries(way)) {
    out[name] = (values as Float64Array).slice(0, n);
  }
  return out as T;
}

/** Lets her middle rise into each flight and sink out of it as legs would: no jump in height or in its speed. */
function pushOff(way: DogTrace, samples: number): void {
  const flying = (i: number): boolean => way.doing[i] === Doing.flight;
  const z = (i: number): number => way.z[i] ?? 0;
  const reach = Math.round(0.2 / STEP);
  let free = 1;
  for (let i = 1; i < samples - 1; i++) {
    if (!flying(i) || flying(i - 1)) continue;
    let last = i;
    while (last + 1 < samples && flying(last + 1)) last++;
    const g = valueOf(gravity);
    const up = (z(i + 1) - z(i)) / STEP + 0.5 * g * STEP;
    const down = up - g * (last - i) * STEP;
    const from = Math.max(free, i - reach);
    const was = (z(from) - z(from - 1)) / STEP;
    const low = z(from);
    for (let k = from + 1; k < i; k++)
      way.z[k] = between(low, was, z(i), up, (i - from) * STEP, (k - from) / (i - from));
    let until = Math.min(samples - 2, last + reach);
    for (let k = last + 1; k <= last + 2 * reach && k < samples; k++) {
      if (flying(k)) until = Math.min(until, (last + k) >> 1);
    }
    const ground = z(until);
    const slope = (z(until + 1) - ground) / STEP;
    const top = z(last);
    for (let k = last + 1; k < until; k++) {
      way.z[k] = between(top, down, ground, slope, (until - last) * STEP, (k - last) / (until - last));
    }
    free = until;
    i = last;
  }
}

/** Cubic from height a with speed va to height b with speed vb within `long` seconds, at share u. */
function between(a: number, va: number, b: number, vb: number, long: number, u: number): number {
  const v = 1 - u;
  return a * v * v * (1 + 2 * u) + va * long * u * v * v + b * u * u * (1 + 2 * v) - vb * long * u * u * v;
}

/** Runs one run from set-up to reward. Same order, same record, on every engine. */
export function simulateRun(order: RunOrder): RunRecord {
  const traits = drawTraits(order.seed, order.traits);
  const { course, handling, happenings } = order;
  const { gates, traps, turns } = waysOf(course);
  const random = randomStream(order.seed).branch('run');
  const notices: DogNotice[] = [];
  const happened: Happened[] = [];
  const said: Said[] = [];
  const weightShift: Span[] = [];
  const perception = new Perception(gates.length, governedPlaces(handling.acts), traits.reaction);
  let time = 0;

  const dog: Dog = new Dog(course.start, traits, happenings, {
    gates,
    traps,
    turns,
    random,
    hold: valueOf(footings[course.footing ?? 'dryGrass']),
    knowsNext: (i) => perception.knows(i, time),
    supportLeaves: (gate) => conduct.leaves(gate),
    handler: () => handler,
    notice: (notice) => {
      notices.push(notice);
      perception.hear(notice);
      if (!events.includes(notice.kind)) return;
      const { kind, at, place, obstacleId } = notice;
      happened.push({ kind, at, place, try: startLine.tryNumber, ...(obstacleId ? { obstacleId } : {}) });
    },
  });
  const handler = new Handler({ x: course.start.x + 0.1, y: course.start.y + 0.75 }, course.start.heading);
  const conduct: Conduct = new Conduct(handling.acts, {
    gates,
    dog,
    handler,
    perception,
    notices,
    happened,
    said,
  });
  const startLine = new StartLine(handling.tries, {
    course,
    dog,
    handler,
    said,
    happened,
    weightShift,
    random,
    natural: happenings.natural,
    reaction: traits.reaction,
  });

  const most = Math.ceil((order.longest ?? 110) / STEP);
  const dogWay = scratch.dog.x.length >= most ? scratch.dog : dogTrace(most);
  const handlerWay = scratch.handler.x.length >= most ? scratch.handler : handlerTrace(most);
  let ending = Infinity;
  let n = 0;
  for (; n < most && time < ending; n++) {
    time = n * STEP;
    dogWay.x[n] = dog.x;
    dogWay.y[n] = dog.y;
    dogWay.z[n] = dog.z;
    dogWay.heading[n] = dog.heading;
    dogWay.speed[n] = dog.speed;
    dogWay.doing[n] = dog.doing;
    dogWay.tipped[n] = dog.tipped;
    dogWay.index[n] = dog.index;
    handlerWay.x[n] = handler.x;
    handlerWay.y[n] = handler.y;
    handlerWay.heading[n] = handler.feet;
    handlerWay.speed[n] = handler.speed;
    handlerWay.shoulders[n] = handler.shoulders;
    handlerWay.arm[n] = handler.arm;
    handlerWay.armSide[n] = handler.armSide;
    startLine.direct(time);
    if (startLine.isReleased && ending === Infinity) {
      conduct.direct(time, startLine.releasedAt);
      perception.learn(time, dog, handler);
      if (dog.finished) {
        const { meet } = handling;
        handler.go([meet], 4.2);
        dog.goals = [{ x: meet.x + 0.5, y: meet.y - 0.3, speed: 4, within: 0.9, stand: true }];
        said.push({ word: 'good', begin: time + 0.5, end: time + 1 });
        ending = time + handling.after;
      }
    }
    dog.step(time, STEP);
    dog.watchPassing(time + STEP);
    handler.step(time, STEP, dog);
    conduct.watchCrosses(time);
  }
  pushOff(dogWay, n);
  return {
    seed: order.seed,
    course,
    traits,
    duration: (n - 1) * STEP,
    finished: ending < Infinity,
    samples: n,
    dog: cut(dogWay, n),
    handler: cut(handlerWay, n),
    notices,
    crosses: conduct.crosses,
    tries: startLine.tries,
    happened,
    said,
    weightShift,
  };
}
