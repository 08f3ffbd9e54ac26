import { mat, type Mat } from './matrices.ts';
import type { Reading } from './smoother.ts';

/** Two by two, symmetric: xx, xy, yy. Square metres on the ground. */
export type Spread = readonly [xx: number, xy: number, yy: number];

interface Timed {
  /** Seconds of the run. */
  readonly at: number;
  /** How far the moment may be off, seconds, one standard deviation: a frame is not a moment. Absent: not at all. */
  readonly unsure?: number;
}

/** A point that touched the ground. */
export interface GroundReading extends Timed {
  readonly contact: 'ground';
  readonly x: number;
  readonly y: number;
  /** From the click alone; what the fit adds is told by `byFit`. */
  readonly spread: Spread;
  /** How the place moves with each parameter of the fit, metres per unit: [x by p1, p2, …], [y by p1, …]. */
  readonly byFit?: readonly [readonly number[], readonly number[]];
}

/** A point above the ground: somewhere over the ground line from where the camera stands to where its ray lands. */
export interface AirReading extends Timed {
  readonly contact: 'air';
  /** A point of that line. */
  readonly x: number;
  readonly y: number;
  /** The way it runs, radians. */
  readonly along: number;
  /** How far the line may lie off sideways, metres, one standard deviation, from the click alone. */
  readonly aside: number;
  /** How it moves to its left with each parameter of the fit, metres per unit. */
  readonly byFit?: readonly number[];
}

export type LineReading = GroundReading | AirReading;

/** Whether every number of a reading is one, and its covariance possible. */
export function isSound(r: LineReading): boolean {
  const numbers = [r.at, r.x, r.y, r.unsure ?? 0, ...(r.byFit ?? []).flat()];
  if (!numbers.every((n) => Number.isFinite(n) && Math.abs(n) < 1e9) || (r.unsure ?? 0) < 0) return false;
  if (r.contact === 'air') return Number.isFinite(r.along) && r.aside > 0 && r.aside < 1e6;
  const [xx, xy, yy] = r.spread;
  return xx > 0 && yy > 0 && xx < 1e12 && yy < 1e12 && xx * yy - xy * xy > 0;
}

/**
 * A reading as the smoother takes it.
 * @param velocity of the body then, m/s: a moment that is off puts it elsewhere along its way
 * @param parameters of the fit, each a further column of the value
 */
export function readingOf(r: LineReading, velocity: readonly [number, number], parameters: number): Reading {
  const late = (r.unsure ?? 0) ** 2;
  const [vx, vy] = velocity;
  if (r.contact === 'ground') {
    const [xx, xy, yy] = r.spread;
    return {
      by: onPlace,
      noise: mat([
        [xx + late * vx * vx, xy + late * vx * vy],
        [xy + late * vx * vy, yy + late * vy * vy],
      ]),
      value: mat([
        [r.x, ...columns(r.byFit?.[0], parameters)],
        [r.y, ...columns(r.byFit?.[1], parameters)],
      ]),
    };
  }
  const left = [-Math.sin(r.along), Math.cos(r.along)] as const;
  return {
    by: mat([[...left, 0, 0]]),
    noise: mat([[r.aside ** 2 + late * (left[0] * vx + left[1] * vy) ** 2]]),
    value: mat([[left[0] * r.x + left[1] * r.y, ...columns(r.byFit, parameters)]]),
  };
}

const onPlace: Mat = mat([
  [1, 0, 0, 0],
  [0, 1, 0, 0],
]);

const columns = (byFit: readonly number[] | undefined, count: number): number[] =>
  Array.from({ length: count }, (_, i) => byFit?.[i] ?? 0);
