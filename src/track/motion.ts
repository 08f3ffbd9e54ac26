import { mat, type Mat } from './matrices.ts';

/**
 * A body that goes on as it goes, pushed about by accelerations that are independent from moment to moment (continuous
 * white noise acceleration; Bar-Shalom, Li and Kirubarajan 2001, Estimation with Applications to Tracking and
 * Navigation, section 6.2, the section from memory). State: x, y, and their speeds; metres and seconds.
 */

/** How a state goes on for `seconds`. */
export const onward = (seconds: number): Mat =>
  mat([
    [1, 0, seconds, 0],
    [0, 1, 0, seconds],
    [0, 0, 1, 0],
    [0, 0, 0, 1],
  ]);

/** What accelerations of intensity `push` (m²/s³) add meanwhile; exact for any length of time. */
export function pushed(push: number, seconds: number): Mat {
  const p = (push * seconds ** 3) / 3;
  const pv = (push * seconds ** 2) / 2;
  const v = push * seconds;
  return mat([
    [p, 0, pv, 0],
    [0, p, 0, pv],
    [pv, 0, v, 0],
    [0, pv, 0, v],
  ]);
}

/** A time in the air, from take-off to landing, seconds. */
export interface Flight {
  readonly from: number;
  readonly to: number;
  /** How far either end may be off, one standard deviation; absent: not at all. */
  readonly unsure?: number;
}

/**
 * In the air nothing pushes but the air itself, which takes about 0.1 m/s² off a dog at 7 m/s: she goes straight on at
 * one speed (ballistics; design facts). This much is left so that covariances stay positive.
 */
export const pushInAir = 1e-3;

/** m²/s³ where too few marks say how hard a body is pushed, and what more marks are weighed against. */
export const usualPush = { dog: 10, handler: 4 } as const;
