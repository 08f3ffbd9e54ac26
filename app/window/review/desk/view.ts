import type { CrossKind } from '../../../../src/plan/plan.ts';
import type { Drawing } from '../../../../src/review/marks.ts';
import type { Spot } from '../marking/act.ts';
import type { Typed } from '../marking/atHand.ts';
import type { OpenCross } from '../marking/crosses.ts';
import type { Span } from '../line/scale.ts';

/** A frame of a clip on which a moment is seen first. */
export interface SharedSpot {
  readonly footageId: string;
  readonly frame: number;
}

/** What the hands are at. Each mode has its own letters; the strip of keys shows them. */
export type Mode =
  | { readonly name: 'obstacles' }
  | { readonly name: 'cross'; readonly open: OpenCross }
  | { readonly name: 'crossKind'; readonly open: OpenCross }
  | { readonly name: 'start' }
  | { readonly name: 'pen' }
  /** Runs of several dogs in one clip, or the part of it that this review is about. */
  | { readonly name: 'cut' }
  /** How fast the clip was filmed: what is about to be said, and the frames of a clock in the picture (PTS). */
  | {
      readonly name: 'speed';
      readonly times: number;
      readonly doubt: number;
      readonly from: number | null;
      readonly to: number | null;
    }
  /** A moment is shown on two clips to line them up; `first` once it is marked on one of them. */
  | { readonly name: 'moment'; readonly first: SharedSpot | null }
  /** The course is fitted to the picture: known points are clicked. */
  | { readonly name: 'ground' }
  /** The line that dog or handler ran is marked: one body point, a click a stride. */
  | { readonly name: 'track' }
  /** The magnifier, the light and the frames laid over are at hand. */
  | { readonly name: 'look'; readonly from: Mode }
  /** A list of event kinds is open; the event will lie where it was opened, however long choosing takes. */
  | { readonly name: 'events' | 'refusal' | 'newKind'; readonly at: Spot & { readonly now: number } };
export type ModeName = Mode['name'];

export const tabs = ['marks', 'crosses', 'start', 'splits', 'map', 'ground', 'line'] as const;
export type Tab = (typeof tabs)[number];

export type Ink = Drawing['strokes'][number]['ink'];

/** Speeds of playback, as shares of real time. */
export const speeds = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2] as const;

/** What a picture can be played at, as shares of the file's speed: browsers refuse to go slower or faster. */
export const slowest = 1 / 16;
export const fastest = 16;

/** What the window knows about this screen and the review does not: where one looks and what the hands are at. */
export interface DeskView {
  readonly footageId: string | null;
  /** The frame asked for last; while playing the one on the screen. */
  readonly frame: number;
  /** Seconds by which this clip misses the instant that was asked for: negative where it begins later, else 0. */
  readonly away: number;
  /** The dialog that lines the clips up is open. */
  readonly lining: boolean;
  readonly playing: boolean;
  /** Speed of playback; a share of the file's speed, or of life's where `asFilmed`. */
  readonly speed: number;
  /** Footage outside of its cut is looked at as well. */
  readonly beyond: boolean;
  /** Slowed footage plays as fast as it was. */
  readonly asFilmed: boolean;
  readonly muted: boolean;
  /** The stretch that is played round and round. */
  readonly loop: Span | null;
  /** Run time at which the coach let a stretch begin whose end is still to come. */
  readonly loopFrom: number | null;
  readonly selected: string | null;
  readonly mode: Mode;
  readonly typed: Typed;
  /** The part of the run that the line of time shows; null for all of it. */
  readonly view: Span | null;
  readonly tab: Tab;
  readonly folded: boolean;
  /** The frames of a cross lie side by side where the picture was. */
  readonly table: boolean;
  /** The editor of the selected mark has the keys. */
  readonly editing: boolean;
  readonly ink: Ink;
  /** The kind a new cross has where the plan names none: the one used last. */
  readonly usualKind: CrossKind;
  /** The coach has watched the run, or wants to mark straight away. */
  readonly watched: boolean;
  /** What happened last, for the eye and for a screen reader. `count` tells two equal sentences apart. */
  readonly said: { readonly text: string; readonly count: number };
}

export const openingView: DeskView = {
  footageId: null,
  frame: 0,
  away: 0,
  lining: false,
  playing: false,
  speed: 1,
  beyond: false,
  asFilmed: false,
  muted: false,
  loop: null,
  loopFrom: null,
  selected: null,
  mode: { name: 'obstacles' },
  typed: { place: null, try: null },
  view: null,
  tab: 'marks',
  folded: false,
  table: false,
  editing: false,
  ink: 'persimmon',
  usualKind: 'front',
  watched: false,
  said: { text: '', count: 0 },
};
