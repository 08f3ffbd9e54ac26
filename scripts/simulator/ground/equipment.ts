import type { Footing } from '../parameters.ts';
/** Equipment on the grass. Metres; x along the ring, y away from the camera side, angles anticlockwise from +x. */

export type Kind =
  'barJump' | 'spread' | 'longJump' | 'tyre' | 'tunnel' | 'weavePoles' | 'aFrame' | 'dogWalk' | 'seeSaw';

export interface GroundPoint {
  readonly x: number;
  readonly y: number;
}

export interface Obstacle {
  readonly id: string;
  readonly kind: Kind;
  readonly nickname: string;
  /** Centre (jumps, contacts), first mouth (tunnel) or first pole (weave poles). */
  readonly x: number;
  readonly y: number;
  /** Direction in which the dog takes it, first time. */
  readonly angle: number;
  readonly sizes: Readonly<Record<string, number>>;
  /** Centre line of a tunnel, first mouth to last. */
  readonly bends?: readonly GroundPoint[];
}

export interface Place {
  /** 1, 2, 3 ... in the order of the judge's numbers. */
  readonly number: number;
  readonly obstacleId: string;
  /** Taken against the obstacle's own angle. */
  readonly reversed: boolean;
}

export interface Course {
  readonly name: string;
  readonly ring: { readonly length: number; readonly depth: number };
  readonly obstacles: readonly Obstacle[];
  readonly places: readonly Place[];
  readonly start: GroundPoint & { readonly heading: number };
  /** What the ring is made of; dry grass where nothing is said. */
  readonly footing?: Footing;
}

/** Sizes within the FCI figures collected in shared check values (bar 120-150, wing 40-60, poles 60 apart ...). */
export const standardSizes: Readonly<Record<Kind, Readonly<Record<string, number>>>> = {
  barJump: { bar: 1.3, height: 0.55, wingWidth: 0.5, wingHeight: 1.0 },
  spread: { bar: 1.3, height: 0.55, frontHeight: 0.4, depth: 0.5, wingWidth: 0.5, wingHeight: 1.0 },
  longJump: { length: 1.3, width: 1.2, units: 4, height: 0.28 },
  tyre: { aperture: 0.55, centre: 0.8, frameWidth: 1.5, height: 0.55 },
  tunnel: { diameter: 0.6, length: 5 },
  weavePoles: { poles: 12, spacing: 0.6, height: 1.1, diameter: 0.035 },
  aFrame: { ramp: 2.7, apex: 1.7, width: 0.9, contact: 1.06, footprint: 4.195 },
  dogWalk: { plank: 3.6, height: 1.2, width: 0.3, contact: 0.9, footprint: 10.388 },
  seeSaw: { plank: 3.7, pivot: 0.6, width: 0.3, contact: 0.9, footprint: 3.7 },
};
