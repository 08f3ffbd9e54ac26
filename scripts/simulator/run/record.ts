import type { CrossAct, CueKind } from '../actors/handling.ts';
import type { DogNotice, DogTraits } from '../actors/dogWorld.ts';
import type { Course } from '../ground/equipment.ts';

/** Seconds between stored samples of a run. */
export const STEP = 1 / 250;

/** One body's way, sampled every STEP seconds. */
export interface Trace {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly heading: Float64Array;
  readonly speed: Float64Array;
}

export interface DogTrace extends Trace {
  readonly z: Float64Array;
  readonly doing: Uint8Array;
  readonly tipped: Float64Array;
  readonly index: Uint8Array;
}

export interface HandlerTrace extends Trace {
  readonly shoulders: Float64Array;
  readonly arm: Float64Array;
  readonly armSide: Int8Array;
}

export interface Span {
  readonly begin: number;
  readonly end: number;
}

export interface CueShown extends Span {
  readonly kind: CueKind;
}

export interface CrossRecord {
  readonly act: CrossAct;
  readonly cues: readonly CueShown[];
  /** First cue begins. */
  readonly begun: number;
  /** The dog sees or hears the first of them; then, one reaction later, she knows. */
  perceivedAt: number | null;
  knownAt: number | null;
  finished: number | null;
}

export interface TryRecord {
  readonly number: number;
  readonly setUp: number;
  left: number;
  readonly fakes: Span[];
  shift: number | null;
  step: number | null;
  release: number | null;
  broken: number | null;
}

export interface Happened {
  readonly kind: string;
  readonly at: number;
  readonly place: number | null;
  readonly try: number;
  readonly obstacleId?: string;
}

export interface Said extends Span {
  readonly word: string;
}

/** All that happened in a run. Times are seconds from its beginning. */
export interface RunRecord {
  readonly seed: number;
  readonly course: Course;
  readonly traits: DogTraits;
  readonly duration: number;
  readonly finished: boolean;
  readonly samples: number;
  readonly dog: DogTrace;
  readonly handler: HandlerTrace;
  readonly notices: readonly DogNotice[];
  readonly crosses: readonly CrossRecord[];
  readonly tries: readonly TryRecord[];
  readonly happened: readonly Happened[];
  readonly said: readonly Said[];
  readonly weightShift: readonly Span[];
}
