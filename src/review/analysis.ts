import type { ObstacleKind } from '../course/kinds.ts';
import type { CrossKind } from '../plan/plan.ts';
import type { Bracket } from '../time/bracket.ts';
import type { Quantity } from '../time/quantity.ts';
import type { CrossPart, CueKind, EventMark, StartPart } from './marks.ts';

/** A mark on the clock of the run: where to look (footage, frame) and the bracket of the event. */
export interface Moment {
  readonly markId: string;
  readonly footageId: string;
  readonly pts: number;
  /** Frame index in its clip. */
  readonly frame: number;
  readonly bracket: Bracket;
  /** Seconds since the clock started; since run time 0 where no clock runs yet. */
  readonly at: Quantity;
}

/** An obstacle taken: its place in the sequence, which try, and its two edges. */
export interface Taken {
  readonly place: number;
  readonly try: number;
  readonly obstacleId: string | null;
  readonly kind: ObstacleKind;
  readonly nickname: string;
  readonly in: Moment | null;
  readonly out: Moment | null;
  /** True where one mark stands for both edges; both brackets are widened by the longest time on this kind. */
  readonly single: boolean;
  /** In to out, where both edges are marked. */
  readonly on: Quantity | null;
}

/** One stretch: out of one obstacle to out of the next. `from` null: from the start of the clock to the first out. */
export interface Split {
  readonly try: number;
  readonly from: number | null;
  readonly to: number;
  readonly time: Quantity;
}

/** How the clock of the run starts and stops, and what it reads. */
export interface RunClock {
  readonly try: number;
  readonly startedBy: 'clockStart' | 'firstTakeOff';
  readonly stoppedBy: 'clockStop' | 'lastLanding';
  readonly start: Moment;
  readonly stop: Moment;
  readonly time: Quantity;
  /** False while the last number of the course has not been taken: the clock reads the run so far. */
  readonly complete: boolean;
}

/** How a cross came out. `notMarked`: the moments that a verdict needs are not there yet. */
export const crossVerdicts = [
  'inTime',
  'tight',
  'late',
  'tooEarly',
  'cannotTell',
  'notMarked',
  'standing',
] as const;
export type CrossVerdict = (typeof crossVerdicts)[number];

/** Why the verdict is as it is: keys of the catalogue's sentences. */
export type CrossReason =
  | 'cueBeforeWithStride'
  | 'cueBeforeWithoutStride'
  | 'cueAfterCommitment'
  | 'finishedAfterLanding'
  | 'begunBeforeCommitted'
  | 'begunBetween'
  | 'bracketsOverlap'
  | 'momentsMissing'
  | 'pivotStanding';

export interface CrossAnalysis {
  readonly id: string;
  readonly place: number;
  readonly kind: CrossKind;
  readonly nickname: string;
  readonly plannedId: string | null;
  readonly verdict: CrossVerdict;
  readonly reason: CrossReason;
  /** What is open, where the verdict is "cannot tell"; what is missing, where moments are. */
  readonly open: readonly ('lead' | 'stride' | 'finish' | 'commitment')[];
  /** Earliest cue to the deadline of the turn (see `deadline`): positive where the cue came before. */
  readonly lead: Quantity | null;
  readonly leadFrames: Quantity | null;
  /** Cross finished to landing (tunnel: exit): positive where it was finished before. */
  readonly finish: Quantity | null;
  /** Rear crosses: committed to the obstacle to the cue: positive where begun after. */
  readonly afterCommitted: Quantity | null;
  /** The stride that "in time" asks for, seconds. */
  readonly stride: number;
  readonly cues: readonly {
    readonly cue: CueKind | null;
    readonly begins: Moment;
    readonly lead: Quantity | null;
  }[];
  readonly parts: Readonly<Partial<Record<CrossPart, Moment>>>;
  /** The deadline in use: take-off or entry; on poles and contacts the exit or last paw off. */
  readonly deadline: Moment | null;
}

export const stayVerdicts = ['kept', 'broken', 'cannotTell', 'notMarked'] as const;
export type StayVerdict = (typeof stayVerdicts)[number];

export interface StartTry {
  readonly try: number;
  readonly verdict: StayVerdict;
  /** Set up to release (kept) or to the first paw moved (broken). */
  readonly stay: Quantity | null;
  /** First paw moved to release: positive where the paw came first. */
  readonly early: Quantity | null;
  readonly fakes: number;
  readonly shifts: number;
  readonly moments: readonly { readonly part: StartPart; readonly moment: Moment }[];
}

export interface EventRow {
  readonly mark: EventMark;
  /** Label of the kind: the coach's own, or a key of the catalogue in `mark.event`. */
  readonly ownLabel: string | null;
  readonly place: number | null;
  readonly moment: Moment;
}

/** What does not fit together in the marks; the figures above are given all the same where they can be. */
export type Warning =
  | { readonly warning: 'outOfOrder'; readonly place: number; readonly try: number; readonly before: number }
  | { readonly warning: 'inAfterOut'; readonly place: number; readonly try: number }
  | {
      readonly warning: 'repeatedEdge';
      readonly place: number;
      readonly try: number;
      readonly edge: 'in' | 'out' | 'whole';
    }
  | { readonly warning: 'notTaken'; readonly place: number; readonly try: number }
  | { readonly warning: 'missingFootage'; readonly markId: string; readonly footageId: string }
  | { readonly warning: 'betweenFrames'; readonly markId: string }
  | { readonly warning: 'notLinedUp'; readonly footageId: string; readonly name: string };

/** Everything the first analysis knows of a review. All figures carry their plus or minus. */
export interface Analysis {
  readonly tries: readonly number[];
  /** The try that counts: the last one in which an obstacle was taken. */
  readonly countedTry: number;
  readonly clock: RunClock | null;
  readonly taken: readonly Taken[];
  /** Splits of the counted try. */
  readonly splits: readonly Split[];
  readonly crosses: readonly CrossAnalysis[];
  readonly startLine: readonly StartTry[];
  readonly events: readonly EventRow[];
  readonly warnings: readonly Warning[];
}
