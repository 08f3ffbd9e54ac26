import type { RandomStream } from '../base/random.ts';
import type { Gate } from '../ground/gate.ts';
import { dogParameters, valueOf } from '../parameters.ts';
import { randomStream } from '../base/random.ts';

/** What the dog is doing; recorded with every sample. */
export const Doing = {
  stay: 0,
  gallop: 1,
  flight: 2,
  tunnel: 3,
  weave: 4,
  contact: 5,
  walk: 6,
  stand: 7,
} as const;
export type DoingNow = (typeof Doing)[keyof typeof Doing];

/** One dog's own numbers. */
export interface DogTraits {
  readonly topSpeed: number;
  readonly reaction: number;
  readonly commitDistance: number;
  readonly weaveSpeed: number;
}

/** Things a story prescribes, so that a film can tell them. Places by number. */
export interface Happenings {
  /** Rises too little and the bar falls. */
  readonly lowOver?: readonly number[];
  /** Enters the poles at the second gap first. */
  readonly wrongEntry?: readonly number[];
  readonly popOut?: readonly number[];
  /** Stops in front of it first. */
  readonly stop?: readonly number[];
  /** Runs by it first. */
  readonly runBy?: readonly number[];
  readonly missContact?: readonly number[];
  /** Whether the same things also happen by chance and circumstance. */
  readonly natural: boolean;
}

export type DogNoticeKind =
  | 'commit'
  | 'in'
  | 'out'
  | 'takeOff'
  | 'landing'
  | 'wrongEntry'
  | 'popOut'
  | 'barDown'
  | 'stop'
  | 'runBy'
  | 'offCourse'
  | 'missedContact';

export interface DogNotice {
  readonly kind: DogNoticeKind;
  readonly place: number;
  readonly at: number;
  /** For an off-course obstacle: which one. */
  readonly obstacleId?: string;
}

/** What the dog perceives of the world. */
export interface DogWorld {
  readonly gates: readonly Gate[];
  /** Jumps that could be taken by mistake, from either side. */
  readonly traps: readonly Gate[];
  /** Turn after each gate, radians, signed. */
  readonly turns: readonly number[];
  readonly random: RandomStream;
  /** Share of the grip on dry grass that the ring's surface gives. */
  readonly hold: number;
  /** Does she know where to go after the place with this index? */
  knowsNext(index: number): boolean;
  /** Is the handler leaving, so that the obstacle ahead looks out of play? */
  supportLeaves(gate: Gate): boolean;
  handler(): { readonly x: number; readonly y: number };
  notice(notice: DogNotice): void;
}

/** Draws a dog's own numbers. */
export function drawTraits(seed: number, given: Partial<DogTraits> = {}): DogTraits {
  const random = randomStream(seed).branch('dog');
  const p = dogParameters;
  const top = valueOf(p.topSpeed) * (1 + valueOf(p.topSpeedSpread) * random.bell());
  const reaction = valueOf(p.reactionMean) + valueOf(p.reactionSpread) * random.bell();
  const commit = valueOf(p.commitDistance) * (1 + 0.1 * random.bell());
  const weave = valueOf(p.weaveSpeed) * (1 + 0.05 * random.bell());
  return {
    topSpeed: given.topSpeed ?? top,
    reaction: given.reaction ?? Math.max(valueOf(p.reactionLeast), reaction),
    commitDistance: given.commitDistance ?? commit,
    weaveSpeed: given.weaveSpeed ?? weave,
  };
}
