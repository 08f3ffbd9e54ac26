import { mannerOf, type Manner, type ObstacleKind } from '../../../../src/course/kinds.ts';
import type { CrossKind } from '../../../../src/plan/plan.ts';
import type { Analysis, CrossVerdict, Moment, StayVerdict } from '../../../../src/review/analysis.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import type { CrossPart, CueKind, EventMark, StartPart } from '../../../../src/review/marks.ts';
import type { Clocks } from '../../../../src/review/moments.ts';
import type { ClipClock } from '../../../../src/time/bracket.ts';
import { toCapture } from '../../../../src/time/captureClock.ts';
import type { Quantity } from '../../../../src/time/quantity.ts';
import { mediaSeconds } from '../../../../src/time/units.ts';
import { eventName } from '../../../../src/words/review.ts';
import { cellOf, clipSpan, cutSpan } from '../../../../src/review/cells.ts';
import type { Span } from './scale.ts';

/** A mark on the line: the frame it lies on, and the bracket that holds what it marks. */
export interface Spot {
  readonly markId: string;
  readonly cell: Span;
  readonly bracket: Span;
}

/** An obstacle as it stands on the line where the dog took it. */
export interface Post {
  readonly place: number;
  readonly try: number;
  readonly counted: boolean;
  readonly kind: ObstacleKind;
  readonly manner: Manner;
  readonly name: string;
  readonly in: Spot | null;
  readonly out: Spot | null;
  readonly single: boolean;
}

/** The way from one obstacle to the next. */
export interface Stretch extends Span {
  readonly toPlace: number;
  readonly fromPlace: number;
  readonly time: Quantity;
}

export type EventFamily = 'course' | 'handling' | 'mood' | 'clock' | 'word';

export interface EventSpot extends Spot {
  readonly family: EventFamily;
  readonly name: string;
  readonly place: number | null;
}

export interface CrossSpan {
  readonly id: string;
  readonly place: number;
  readonly kind: CrossKind;
  readonly verdict: CrossVerdict;
  readonly lead: Quantity | null;
  readonly cues: readonly (Spot & { readonly cue: CueKind | null })[];
  readonly parts: Readonly<Partial<Record<CrossPart, Spot>>>;
  /** All of it, for finding room and for touching it. */
  readonly span: Span;
}

export interface StartSpan {
  readonly try: number;
  readonly verdict: StayVerdict;
  readonly stay: Quantity | null;
  readonly moments: readonly (Spot & { readonly part: StartPart })[];
  readonly span: Span;
}

export interface ClipBand extends Span {
  readonly footageId: string;
  readonly name: string;
  /** Stretches of it that play slower than life. */
  readonly slowed: readonly Span[];
  /** The part that the review is about. */
  readonly cut: Span;
}

/** Everything that stands on the line of time, on the clock of the run, each list in order. */
export interface LineContent {
  readonly whole: Span;
  readonly clips: readonly ClipBand[];
  readonly posts: readonly Post[];
  readonly stretches: readonly Stretch[];
  readonly events: readonly EventSpot[];
  readonly crosses: readonly CrossSpan[];
  readonly starts: readonly StartSpan[];
}

const families: Readonly<Record<string, EventFamily>> = {
  barDown: 'course',
  refusal: 'course',
  offCourse: 'course',
  missedEntry: 'course',
  poppedOut: 'course',
  missedContact: 'course',
  wide: 'handling',
  lateCross: 'handling',
  happy: 'mood',
  worried: 'mood',
  reward: 'mood',
  clockStart: 'clock',
  clockStop: 'clock',
};

export const familyOf = (event: EventMark['event']): EventFamily => families[event] ?? 'word';

/** Lays out what the analysis knows on the clock of the run; `beyond` shows cut clips whole. */
export function lineContent(
  review: ReviewState,
  analysis: Analysis,
  clocks: Clocks,
  beyond = false,
): LineContent {
  const spot = (m: Moment): Spot => spotOf(m, clocks);
  const clips = review.footage.flatMap((f): ClipBand[] => {
    const clock = clocks.get(f.id);
    if (!clock) return [];
    const span = clipSpan(clock);
    return [
      {
        footageId: f.id,
        name: f.name,
        ...span,
        slowed: slowedWithin(clock, span),
        cut: cutSpan(clock, f.cut),
      },
    ];
  });
  const posts = analysis.taken
    .map((t): Post => ({
      place: t.place,
      try: t.try,
      counted: t.try === analysis.countedTry,
      kind: t.kind,
      manner: mannerOf(t.kind),
      name: t.nickname,
      in: t.in && spot(t.in),
      out: t.out && spot(t.out),
      single: t.single,
    }))
    .sort((a, b) => startOf(a) - startOf(b));
  return {
    whole: wholeOf(beyond ? clips : clips.map((c) => c.cut)),
    clips,
    posts,
    stretches: stretchesOf(posts, analysis),
    events: analysis.events
      .map((e): EventSpot => ({
        ...spot(e.moment),
        family: familyOf(e.mark.event),
        name: eventName(e.mark, e.ownLabel),
        place: e.place,
      }))
      .sort((a, b) => a.cell.from - b.cell.from),
    crosses: analysis.crosses.flatMap((c): CrossSpan[] => {
      const cues = c.cues.map((q) => ({ ...spot(q.begins), cue: q.cue }));
      const parts: Partial<Record<CrossPart, Spot>> = {};
      for (const [part, moment] of Object.entries(c.parts)) parts[part as CrossPart] = spot(moment);
      const span = hullOf([...cues, ...Object.values(parts)]);
      const { id, place, kind, verdict, lead } = c;
      return span ? [{ id, place, kind, verdict, lead, cues, parts, span }] : [];
    }),
    starts: analysis.startLine.flatMap((s): StartSpan[] => {
      const moments = s.moments.map((m) => ({ ...spot(m.moment), part: m.part }));
      const span = hullOf(moments);
      return span ? [{ try: s.try, verdict: s.verdict, stay: s.stay, moments, span }] : [];
    }),
  };
}

/** The stretches that were said to play slower than life, on the clock of the run. */
function slowedWithin(clock: ClipClock, clip: Span): Span[] {
  const at = (media: number): number =>
    clock.offset + toCapture(clock.speed, mediaSeconds(media)) * clock.rate;
  return clock.speed.flatMap((piece, i) => {
    const next = clock.speed[i + 1];
    const from = i === 0 ? clip.from : Math.max(clip.from, at(piece.from));
    const to = next ? Math.min(clip.to, at(next.from)) : clip.to;
    return piece.speed < 1 && from < to ? [{ from, to }] : [];
  });
}

function spotOf(m: Moment, clocks: Clocks): Spot {
  const clock = clocks.get(m.footageId);
  const cell = clock ? cellOf(clock, m.frame) : m.bracket;
  return { markId: m.markId, cell: { from: cell.from, to: cell.to }, bracket: m.bracket };
}

/** A second stands in where no clip is there yet, so that every view has a length. */
function wholeOf(clips: readonly Span[]): Span {
  if (clips.length === 0) return { from: 0, to: 1 };
  return { from: Math.min(...clips.map((c) => c.from)), to: Math.max(...clips.map((c) => c.to)) };
}

const startOf = (p: Post): number => (p.in ?? p.out)?.cell.from ?? 0;
const endOf = (p: Post): number => (p.out ?? p.in)?.cell.to ?? 0;

function stretchesOf(posts: readonly Post[], analysis: Analysis): Stretch[] {
  const byPlace = new Map(posts.filter((p) => p.counted).map((p) => [p.place, p]));
  return analysis.splits.flatMap((s): Stretch[] => {
    const target = byPlace.get(s.to);
    const before = s.from === null ? undefined : byPlace.get(s.from);
    if (!target || !before) return [];
    const from = endOf(before);
    const to = startOf(target);
    return from < to ? [{ from, to, fromPlace: before.place, toPlace: s.to, time: s.time }] : [];
  });
}

function hullOf(spots: readonly Spot[]): Span | null {
  if (spots.length === 0) return null;
  return {
    from: Math.min(...spots.map((s) => s.cell.from)),
    to: Math.max(...spots.map((s) => s.cell.to)),
  };
}

/** What was marked of the run, with a little room either side; null before anything is. */
export function markedSpan(content: LineContent): Span | null {
  const spans = [
    ...content.posts.map((p) => ({ from: startOf(p), to: endOf(p) })),
    ...content.starts.map((s) => s.span),
    ...content.crosses.map((c) => c.span),
  ];
  if (spans.length === 0) return null;
  const from = Math.min(...spans.map((s) => s.from));
  const to = Math.max(...spans.map((s) => s.to));
  const room = Math.max(0.5, (to - from) * 0.03);
  return { from: from - room, to: to + room };
}
