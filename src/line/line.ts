import type { ObstacleKind } from '../course/kinds.ts';
import type { GroundPoint } from '../course/points.ts';
import type { Pose } from '../course/pose.ts';
import type { Runner } from './runner.ts';

/** What a line is worked out for. */
export interface LineWish {
  readonly runner: Runner;
  /** Where the dog waits; absent: on the way in to the first obstacle, as the course's start line has it. */
  readonly start?: GroundPoint;
  /** Where she is said to land (or come out), by number: the line goes on from there ("what if she lands there?"). */
  readonly landings?: ReadonlyMap<number, GroundPoint>;
  /** Every bar is taken square across its middle, every tunnel straight in. */
  readonly centred?: boolean;
}

/** One number as the line takes it. Seconds count from the dog's first movement. */
export interface LineStep {
  readonly number: number;
  readonly obstacleId: string;
  readonly kind: ObstacleKind;
  /** Take-off, entry or first paw on, and the way she runs there. */
  readonly entry: Pose;
  /** Landing, exit or last paw off, and the way she runs there. */
  readonly exit: Pose;
  /** Her way from entry to exit; two points where it is a flight. */
  readonly through: readonly GroundPoint[];
  /** Where a bar is crossed: metres to the left of its middle, as the dog runs. 0 where there is no bar. */
  readonly offset: number;
  /** How obliquely a bar is crossed: degrees, to the left where positive. */
  readonly sliceDegrees: number;
  readonly inAt: number;
  readonly outAt: number;
}

/** The way on the ground from one number to the next. */
export interface LineStretch {
  /** null: from where she waits. */
  readonly from: number | null;
  /** null: to the finish. */
  readonly to: number | null;
  readonly points: readonly GroundPoint[];
  readonly length: number;
  readonly seconds: number;
  /** How far she turns on the ground, degrees, to the left where positive. */
  readonly turnDegrees: number;
  /** Radius of the turns of this stretch, metres; null where it is straight. */
  readonly radius: number | null;
  /** True where no way was found that keeps clear of all equipment. */
  readonly blocked: boolean;
}

/** The way a dog is likely to take through a course. */
export interface LikelyLine {
  readonly steps: readonly LineStep[];
  /** One more than steps: before each, and after the last. */
  readonly stretches: readonly LineStretch[];
  readonly length: number;
  readonly seconds: number;
}

/** A line is a range, not a wire: the same course for a dog that turns tightly, as assumed, and widely. */
export interface LineRange {
  readonly tight: LikelyLine;
  readonly usual: LikelyLine;
  readonly wide: LikelyLine;
}
