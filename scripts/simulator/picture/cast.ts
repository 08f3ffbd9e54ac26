import { Doing } from '../actors/dogWorld.ts';
import { dogBodyAt } from '../actors/dogBody.ts';
import type { DogBody } from '../actors/dogBody.ts';
import type { Contact, Foot, PawContacts } from '../actors/footfalls.ts';
import { handlerFootfalls, pawContacts } from '../actors/footfalls.ts';
import type { HandlerBody } from '../actors/handlerBody.ts';
import { handlerBodyAt } from '../actors/handlerBody.ts';
import { randomStream } from '../base/random.ts';
import { sine } from '../base/exact.ts';
import type { RunRecord } from '../run/record.ts';
import { STEP } from '../run/record.ts';

/** A person, perhaps with a dog, who has nothing to do with the run. */
export interface Bystander {
  person(time: number): HandlerBody;
  dog: ((time: number) => DogBody) | null;
  readonly jacket: string;
  readonly trousers: string;
  readonly hair: string;
}

function quietRecord(run: RunRecord, duration: number): RunRecord {
  const n = Math.ceil(duration / STEP) + 1;
  const zeros = (): Float64Array => new Float64Array(n);
  return {
    ...run,
    duration: (n - 1) * STEP,
    samples: n,
    dog: {
      x: zeros(),
      y: zeros(),
      z: zeros().fill(0.42),
      heading: zeros(),
      speed: zeros(),
      doing: new Uint8Array(n).fill(Doing.walk),
      tipped: zeros(),
      index: new Uint8Array(n),
    },
    handler: {
      x: zeros(),
      y: zeros(),
      heading: zeros(),
      speed: zeros(),
      shoulders: zeros(),
      arm: zeros(),
      armSide: new Int8Array(n).fill(1),
    },
    notices: [],
    crosses: [],
    tries: [],
    happened: [],
    said: [],
    weightShift: [],
  };
}

function castOf(record: RunRecord, withDog: boolean, colours: readonly [string, string, string]): Bystander {
  const falls: Readonly<Record<Foot, readonly Contact[]>> = handlerFootfalls(record);
  const paws: PawContacts | null = withDog ? pawContacts(record) : null;
  return {
    person: (time) => handlerBodyAt(record, falls, time),
    dog: paws ? (time) => dogBodyAt(record, paws, time) : null,
    jacket: colours[0],
    trousers: colours[1],
    hair: colours[2],
  };
}

const coats: readonly (readonly [string, string, string])[] = [
  ['#3f6f8f', '#4a4038', '#2d2622'],
  ['#6f8f5a', '#2f3440', '#8a6a3c'],
  ['#8a5a7a', '#3a3a3a', '#c8c2b8'],
  ['#c9b458', '#3b4556', '#5a3a26'],
  ['#5a5f66', '#54483c', '#1f1a18'],
];

/** People along the far rope, and one who walks by behind with a dog on a lead. */
export function bystandersOf(run: RunRecord, seed: number): Bystander[] {
  const random = randomStream(seed).branch('bystanders');
  const out: Bystander[] = [];
  const stroll = quietRecord(run, run.duration);
  const speed = 1.15;
  const late = random.between(2, 10);
  for (let i = 0; i < stroll.samples; i++) {
    const t = i * STEP;
    const x = 44 - speed * (t + late) + 4;
    const y = 23.2 + 0.25 * sine(0.4 * t);
    stroll.handler.x[i] = x;
    stroll.handler.y[i] = y + 0.55;
    stroll.handler.heading[i] = Math.PI;
    stroll.handler.shoulders[i] = Math.PI;
    stroll.handler.speed[i] = speed;
    stroll.dog.x[i] = x - 0.7;
    stroll.dog.y[i] = y;
    stroll.dog.heading[i] = Math.PI;
    stroll.dog.speed[i] = speed;
  }
  out.push(castOf(stroll, true, coats[0] ?? ['#3f6f8f', '#4a4038', '#2d2622']));
  for (let k = 0; k < 5; k++) {
    const stands = quietRecord(run, run.duration);
    const x = 3 + 8.2 * k + random.between(-2, 2);
    const facing = -Math.PI / 2 + random.between(-0.5, 0.5);
    const pace = random.between(0.1, 0.3);
    for (let i = 0; i < stands.samples; i++) {
      const t = i * STEP;
      stands.handler.x[i] = x + 0.05 * sine(pace * t + k);
      stands.handler.y[i] = 21.6 + 0.4 * (k % 2);
      stands.handler.heading[i] = facing;
      stands.handler.shoulders[i] = facing + 0.25 * sine(0.5 * pace * t);
      stands.dog.x[i] = run.dog.x[Math.min(i, run.samples - 1)] ?? 20;
      stands.dog.y[i] = run.dog.y[Math.min(i, run.samples - 1)] ?? 10;
    }
    out.push(castOf(stands, false, coats[(k + 1) % coats.length] ?? ['#888888', '#444444', '#222222']));
  }
  return out;
}
