import type { GroundPoint } from '../ground/equipment.ts';

/** When an act of the handler begins. Seconds. */
export type Trigger =
  | {
      readonly on: 'dog';
      readonly place: number;
      readonly moment: 'commit' | 'in' | 'out' | 'landing';
      readonly delay: number;
    }
  /** As soon as she expects the dog to take off (or enter) at `place` within `lead` seconds; negative: after it. */
  | { readonly on: 'expected'; readonly place: number; readonly lead: number }
  | { readonly on: 'arrived'; readonly delay: number }
  /** As soon as she is within so many metres of a spot. */
  | { readonly on: 'near'; readonly at: GroundPoint; readonly within: number }
  | { readonly on: 'release'; readonly delay: number }
  | { readonly on: 'event'; readonly kind: string; readonly delay: number };

export type CrossKind = 'front' | 'rear' | 'blind';
export type CueKind = 'feet' | 'shoulders' | 'slowing' | 'voice';
export type Side = 'left' | 'right';

/** A side change: what shows when, relative to the moment it begins. */
export interface CrossAct {
  readonly do: 'cross';
  readonly when: Trigger;
  readonly place: number;
  readonly kind: CrossKind;
  /** Side of the handler on which the dog is. */
  readonly before: Side;
  readonly after: Side;
  /** Seconds from the trigger; null: not given. */
  readonly cues: Readonly<Record<CueKind, number | null>>;
  readonly turnTime: number;
  readonly through: readonly GroundPoint[];
  readonly speed: number;
}

export interface GoAct {
  readonly do: 'go';
  readonly when: Trigger;
  readonly to: readonly GroundPoint[];
  readonly speed: number;
}

export interface SayAct {
  readonly do: 'say';
  readonly when: Trigger;
  readonly word: 'jump' | 'turn' | 'tunnel' | 'poles' | 'climb' | 'here' | 'good';
}

/** First choice where she is ahead of the dog by so many metres on the way to `place`, else the second. */
export interface ChooseAct {
  readonly do: 'choose';
  readonly when: Trigger;
  readonly place: number;
  readonly ahead: number;
  readonly first: readonly Act[];
  readonly second: readonly Act[];
}

export type Act = CrossAct | GoAct | SayAct | ChooseAct;

export interface StartTry {
  readonly leadOut: readonly GroundPoint[];
  readonly leadSpeed: number;
  /** Seconds after the handler leaves at which the dog breaks; null: she stays. */
  readonly breakAfter: number | null;
  /** Seconds after the handler stands at the end of the lead-out. */
  readonly fakes: readonly number[];
  readonly releaseAfter: number;
}

export interface Handling {
  readonly tries: readonly StartTry[];
  readonly acts: readonly Act[];
  /** Where she waits to reward. */
  readonly meet: GroundPoint;
  /** Seconds the run goes on after the last obstacle. */
  readonly after: number;
}
