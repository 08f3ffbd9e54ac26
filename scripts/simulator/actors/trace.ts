import { clamp, wrapAngle } from '../base/exact.ts';
import type { RunRecord } from '../run/record.ts';
import { STEP } from '../run/record.ts';

export interface DogMoment {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly heading: number;
  readonly speed: number;
  readonly doing: number;
  readonly tipped: number;
  readonly index: number;
}

export interface HandlerMoment {
  readonly x: number;
  readonly y: number;
  readonly feet: number;
  readonly shoulders: number;
  readonly speed: number;
  readonly arm: number;
  readonly armSide: number;
}

function between(values: ArrayLike<number>, i: number, u: number): number {
  const a = values[i] ?? 0;
  return u === 0 ? a : a + ((values[i + 1] ?? a) - a) * u;
}

function angleBetween(values: ArrayLike<number>, i: number, u: number): number {
  const a = values[i] ?? 0;
  if (u === 0) return a;
  const b = values[i + 1] ?? a;
  return wrapAngle(a + wrapAngle(b - a) * u);
}

/** The dog at any moment of the run, linear between samples. */
export function dogAt(run: RunRecord, time: number): DogMoment {
  const { dog } = run;
  const place = clamp(time / STEP, 0, run.samples - 1);
  const i = Math.min(Math.floor(place), run.samples - 1);
  const u = place - i;
  return {
    x: between(dog.x, i, u),
    y: between(dog.y, i, u),
    z: between(dog.z, i, u),
    heading: angleBetween(dog.heading, i, u),
    speed: between(dog.speed, i, u),
    doing: dog.doing[i] ?? 0,
    tipped: between(dog.tipped, i, u),
    index: dog.index[i] ?? 0,
  };
}

/** The handler at any moment of the run. */
export function handlerAt(run: RunRecord, time: number): HandlerMoment {
  const { handler } = run;
  const place = clamp(time / STEP, 0, run.samples - 1);
  const i = Math.min(Math.floor(place), run.samples - 1);
  const u = place - i;
  return {
    x: between(handler.x, i, u),
    y: between(handler.y, i, u),
    feet: angleBetween(handler.heading, i, u),
    shoulders: angleBetween(handler.shoulders, i, u),
    speed: between(handler.speed, i, u),
    arm: between(handler.arm, i, u),
    armSide: handler.armSide[i] ?? 1,
  };
}
