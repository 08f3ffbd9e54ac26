import type { Assumed } from '../line/runner.ts';
import type { Pace } from './plan.ts';

/** How a handler moves, until it is measured. No published figure was found for any of them. */
export const assumedPace = {
  topSpeed: { least: 3.5, usual: 5, most: 7, unit: 'm/s', why: 'a fit handler on grass; common practice' },
  pickUp: { least: 2, usual: 3.5, most: 5, unit: 'm/s2', why: 'from standing to running' },
  turnSeconds: {
    ...{ least: 0.3, usual: 0.6, most: 1, unit: 's' },
    why: 'from the first sign of a cross until she is turned about',
  },
  braking: { least: 3, usual: 4.5, most: 7, unit: 'm/s2', why: 'slowing down on grass' },
  offLine: {
    least: 0.3,
    usual: 0.5,
    most: 0.8,
    unit: 'm',
    why: "from the dog's line to the handler's middle",
  },
} as const satisfies Record<string, Assumed>;

/** A handler's pace with all that a way needs: metres, seconds. */
export interface HandlerPace extends Pace {
  readonly braking: number;
  /** How far from the dog's line she stands clear of it. */
  readonly offLine: number;
}

/** The pace of a plan, with what it leaves unsaid as assumed. */
export function paceOf(known: Pace | undefined): HandlerPace {
  const { topSpeed, pickUp, turnSeconds, braking, offLine } = assumedPace;
  return {
    topSpeed: known?.topSpeed ?? topSpeed.usual,
    pickUp: known?.pickUp ?? pickUp.usual,
    turnSeconds: known?.turnSeconds ?? turnSeconds.usual,
    braking: braking.usual,
    offLine: offLine.usual,
  };
}

/** One way run as fast as a pace allows. */
export interface Dash {
  readonly metres: number;
  readonly seconds: number;
  /** Speed on arrival, m/s: what was asked for, or as much as the way allows. */
  readonly speedThere: number;
  /** Metres run after so many seconds. */
  at(seconds: number): number;
}

/**
 * The quickest way to run `metres` that begins at speed `v0` and ends at `v1`: speeding up at the pick-up, at most top
 * speed, slowing down at the braking. Motion at steady acceleration: v1^2 = v0^2 + 2 a s. Where the way is too short
 * to reach `v1`, it ends at the speed that can be had; where it is too short to brake, it is braked harder.
 */
export function dash(metres: number, pace: HandlerPace, v0 = 0, v1 = 0): Dash {
  const { pickUp: a, braking, topSpeed } = pace;
  const start = Math.min(v0, topSpeed);
  if (metres <= 1e-9) return { metres: 0, seconds: 0, speedThere: start, at: () => 0 };
  const end = Math.min(v1, topSpeed, Math.sqrt(start * start + 2 * a * metres));
  const b = Math.max(braking, (start * start - end * end) / (2 * metres));
  const peak = Math.min(
    topSpeed,
    Math.sqrt((2 * a * b * metres + b * start * start + a * end * end) / (a + b)),
  );
  const up = (peak - start) / a;
  const down = (peak - end) / b;
  const upMetres = ((start + peak) / 2) * up;
  const downMetres = ((peak + end) / 2) * down;
  const flat = Math.max(0, metres - upMetres - downMetres) / Math.max(peak, 1e-9);
  const seconds = up + flat + down;
  return {
    metres,
    seconds,
    speedThere: end,
    at(t) {
      if (t <= 0) return 0;
      if (t >= seconds) return metres;
      if (t < up) return start * t + (a * t * t) / 2;
      if (t < up + flat) return upMetres + peak * (t - up);
      const left = seconds - t;
      return metres - end * left - (b * left * left) / 2;
    },
  };
}
