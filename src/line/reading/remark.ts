import type { ObstacleKind } from '../../course/kinds.ts';
import type { GroundShape } from '../groundShapes.ts';
import type { DoneOf, EntrySide } from '../skills.ts';
import type { HidingPart } from './hiders.ts';
import type { RearPrices } from './rearPrices.ts';

/** What to light up on the course beside a remark. */
export interface Highlight {
  readonly shapes: readonly GroundShape[];
  readonly obstacleIds: readonly string[];
}

interface Told {
  /** The numbers it is about, in the order they are run. */
  readonly numbers: readonly number[];
  /** How much it matters, 0 to 1. */
  readonly weight: number;
  readonly highlight: Highlight;
}

/** Degrees off a direction are to the left where positive, everywhere. Lengths in metres. */
export type Remark = Told & Facts;

export type Facts =
  | StartFacts
  | WayFacts
  | SightFacts
  | EntryFacts
  | SliceFacts
  | TrapFacts
  | SideChangeFacts
  | NeverMetFacts
  | SentFacts;

/** From where she waits to the first take-off or entry. */
export interface StartFacts {
  readonly remark: 'start';
  readonly to: number;
  readonly metres: number;
  readonly stay?: DoneOf;
}

/** The way from one number to the next. */
export interface WayFacts {
  readonly remark: 'way';
  readonly from: number;
  readonly to: number;
  /** Straight from landing or exit to take-off or entry, and along the line. */
  readonly straight: number;
  readonly along: number;
  readonly turnDegrees: number;
  readonly seconds: number;
  /** Whether she knows a word for that turn; absent where the turn is small or nobody has said. */
  readonly turnsOnWord?: boolean;
  /** True where no way was found that keeps clear of all equipment. */
  readonly blocked: boolean;
}

/** What she sees of the next obstacle where she lands or comes out. */
export interface SightFacts {
  readonly remark: 'sight';
  readonly from: number;
  readonly to: number;
  /** How far behind the obstacle she is; 0 where she comes out of it or off it. */
  readonly past: number;
  /** How far the next obstacle lies off her heading, and how far away it is. */
  readonly offHeading: number;
  readonly metres: number;
  readonly inView: boolean;
  /** True where she looks at it from the side she must not take it from. */
  readonly fromBehind: boolean;
  /** Share of its way in that nothing hides, 0 to 1, and whether that is enough to read it. */
  readonly share: number;
  readonly seen: boolean;
  /** Weave poles: whether the first two stand free, and how much of the side at which she must go in. */
  readonly poles?: { readonly first: boolean; readonly second: boolean; readonly side: number };
  /** What hides it, the most hiding first. */
  readonly hiddenBy: readonly { readonly obstacleId: string; readonly part: HidingPart }[];
}

/** How the next obstacle is met on the straight way from where she lands or comes out. */
export interface EntryFacts {
  readonly remark: 'entry';
  readonly from: number;
  readonly to: number;
  /** How far that way is off the way she must run there; she comes from the left where negative. */
  readonly obliquely: number;
  /** Weave poles. */
  readonly poles?: {
    readonly side: EntrySide;
    /** How far she must bend round the first pole, degrees without sign; 0 on the side at which she runs past it. */
    readonly round: number;
    readonly count?: DoneOf;
    /** True where the tries counted are too few to say much. */
    readonly few: boolean;
  };
}

/** A bar that is taken at a slant. */
export interface SliceFacts {
  readonly remark: 'slice';
  readonly number: number;
  readonly sliceDegrees: number;
  /** Metres to the left of the bar's middle. */
  readonly offset: number;
}

export type TrapKind = 'wrongObstacle' | 'wrongMouth' | 'backJump';

/** Something on her straight way on that invites her and is not the next obstacle. */
export interface TrapFacts {
  readonly remark: 'trap';
  readonly from: number;
  readonly to: number;
  readonly trap: TrapKind;
  readonly obstacleId: string;
  /** True for poles and contacts that she would come to at the end at which the course never has her go in. */
  readonly wrongEnd: boolean;
  readonly metres: number;
  readonly offHeading: number;
  /** How far the right obstacle lies off her heading. */
  readonly rightOffHeading: number;
  /** `landing`: as she lands or comes out; `turning`: once she has turned back to the obstacle she has just taken. */
  readonly seenFrom: 'landing' | 'turning';
}

/** Where the course turns from one hand to the other. */
export interface SideChangeFacts {
  readonly remark: 'sideChange';
  /** The hand the course turns to before; after it turns to the other. */
  readonly before: 'left' | 'right';
  /** The numbers she takes between the one turn and the other; empty where both lie on one way. */
  readonly at: readonly number[];
  /** The number before and the one after; null: start or finish. */
  readonly after: number | null;
  readonly by: number | null;
  /** A change behind her at the poles, as counted. */
  readonly rearAtPoles?: DoneOf;
  /** What a change behind her costs and brings, where the one number it fits at is a jump. */
  readonly rear?: RearPrices;
}

/** Equipment she has never met. */
export interface NeverMetFacts {
  readonly remark: 'neverMet';
  readonly kind: ObstacleKind;
}

/** Ways that are longer than she has been sent: from these numbers. */
export interface SentFacts {
  readonly remark: 'sent';
  readonly sentMetres: number;
  readonly longest: number;
}

/** A course as a coach reads it for one dog. Remarks in the order of the course. */
export interface Reading {
  readonly remarks: readonly Remark[];
}
