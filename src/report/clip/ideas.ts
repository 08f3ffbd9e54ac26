import { frameShownAt, framesOfCut } from '../../review/cells.ts';
import type { Analysis, CrossAnalysis, Moment, Split } from '../../review/analysis.ts';
import type { ReviewState } from '../../review/entities.ts';
import { kindAt } from '../../review/obstaclesTaken.ts';
import { workOn, type Instance } from '../../review/workOn.ts';
import { middle, type ClipClock } from '../../time/bracket.ts';
import { ptsOf } from '../../time/frameTable.ts';
import { frameIndex } from '../../time/units.ts';
import { clipWords } from '../../words/clip.ts';
import { crossSentence } from '../../words/review.ts';
import { verdictWords } from '../../words/verdicts.ts';
import { eventName } from '../eventName.ts';
import { crossMoments } from '../stills.ts';
import { longestCaption, type ClipWish } from './wish.ts';

/** A clip that the marks of a run suggest: which frames, what is slowed, and what is held. */
export interface ClipIdea extends Pick<ClipWish, 'footageId' | 'parts' | 'slow' | 'freezes'> {
  readonly of:
    | { readonly what: 'short'; readonly points: number }
    | { readonly what: 'cross'; readonly cross: CrossAnalysis }
    | { readonly what: 'stretch'; readonly split: Split };
}

/** What a clip is made of here. */
export interface IdeasFrom {
  readonly review: ReviewState;
  readonly analysis: Analysis;
  readonly clocks: ReadonlyMap<string, ClipClock>;
}

/** More points than this nobody keeps from one short clip (common practice: one or two things are trained). */
export const mostPoints = 3;

/** Run seconds shown before and after what a clip is about, and slowed about it; seconds for which a frame is held. */
const around = { before: 1.6, after: 1.4, slowBefore: 0.5, slowAfter: 0.4, held: 3 } as const;
const slowed = 1 / 4;

/**
 * What the short clip of a run shows: the moments of what there is to work on, then its crosses, at most three, all on
 * one clip. Null where nothing is marked that could be pointed at.
 */
export function shortClip(from: IdeasFrom): ClipIdea | null {
  const { review, analysis } = from;
  const { first } = workOn(analysis, review.header.stage, new Map(), review.header.work);
  const told = [
    ...first.flatMap((item) => item.instances).flatMap((i) => pointOfInstance(from, i)),
    ...analysis.crosses.flatMap((cross) => pointOfCross(from, cross)),
  ];
  const seen = new Set<string>();
  const points = told.filter(({ key, footageId }) => {
    if (seen.has(key) || !from.clocks.has(footageId)) return false;
    seen.add(key);
    return true;
  });
  const counts = (id: string): number => points.filter((p) => p.footageId === id).length;
  const [chosen] = points.map((p) => p.footageId).sort((a, b) => counts(b) - counts(a));
  const clock = chosen === undefined ? undefined : from.clocks.get(chosen);
  if (chosen === undefined || !clock) return null;
  const shown = points
    .filter((p) => p.footageId === chosen)
    .slice(0, mostPoints)
    .sort((a, b) => a.at - b.at);
  // About the moment that decides, not the whole of a cross: it is to stay short.
  const windows = shown.map((p) => windowOf(from, chosen, clock, p.at, p.at));
  return {
    of: { what: 'short', points: shown.length },
    footageId: chosen,
    parts: joined(windows.map((w) => w.part)),
    slow: windows.map((w) => ({ ...w.slow, speed: slowed })),
    freezes: shown.map(({ pts, caption }) => ({ pts, seconds: around.held, caption })),
  };
}

/** A clip of one cross: slowed from its first moment to its last, held where it is decided. */
export function crossClip(from: IdeasFrom, cross: CrossAnalysis): ClipIdea | null {
  const [point] = pointOfCross(from, cross);
  const clock = point && from.clocks.get(point.footageId);
  if (!point || !clock) return null;
  const { part, slow } = windowOf(from, point.footageId, clock, point.from, point.to);
  return {
    of: { what: 'cross', cross },
    footageId: point.footageId,
    parts: [part],
    slow: [{ ...slow, speed: slowed }],
    freezes: [{ pts: point.pts, seconds: around.held, caption: point.caption }],
  };
}

/** A clip of one stretch, from the out of one number to the out of the next, at real speed. */
export function stretchClip(from: IdeasFrom, split: Split): ClipIdea | null {
  const outOf = (place: number | null): Moment | null =>
    from.analysis.taken.find((t) => t.place === place && t.try === split.try)?.out ?? null;
  const begin = split.from === null ? (from.analysis.clock?.start ?? null) : outOf(split.from);
  const end = outOf(split.to);
  const clock = end && from.clocks.get(end.footageId);
  if (!begin || !end || !clock || begin.footageId !== end.footageId) return null;
  return {
    of: { what: 'stretch', split },
    footageId: end.footageId,
    parts: [{ from: begin.pts, to: end.pts }],
    slow: [],
    freezes: [],
  };
}

/** Everything the marks suggest: the short clip first, then the crosses, then the stretches. */
export function clipIdeas(from: IdeasFrom): readonly ClipIdea[] {
  const { crosses, splits } = from.analysis;
  return [
    shortClip(from),
    ...crosses.map((cross) => crossClip(from, cross)),
    ...splits.map((split) => stretchClip(from, split)),
  ].filter((idea) => idea !== null);
}

/** Something to look at: the frame that is held, and the run time from its first moment to its last. */
interface Point {
  readonly key: string;
  readonly footageId: string;
  readonly pts: number;
  /** Run time of the frame that is held. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly caption: string;
}

function pointOfInstance(from: IdeasFrom, { of, moment, place }: Instance): Point[] {
  if (of.what === 'cross') return pointOfCross(from, of.cross);
  if (!moment) return [];
  const caption =
    of.what === 'try'
      ? clipWords.onScreen.broke(of.try.try)
      : clipWords.onScreen.event(
          place,
          eventName(of.event, (text) => text),
          of.event.mark.note.trim(),
        );
  const at = middle(moment.bracket);
  return [pointAt(`mark ${moment.markId}`, moment, at, at, caption)];
}

function pointOfCross({ review }: IdeasFrom, cross: CrossAnalysis): Point[] {
  const moments = crossMoments(cross).map((m) => m.moment);
  const decisive = cross.deadline ?? cross.parts.cueEnds ?? moments[0];
  if (!decisive) return [];
  // What another clip shows lies on the clock of the run all the same.
  const times = moments.map((m) => middle(m.bracket));
  const sentence = crossSentence(cross, kindAt(review.course, cross.place));
  const caption = clipWords.onScreen.cross(cross.place, cross.kind, verdictWords[cross.verdict], sentence);
  return [pointAt(`cross ${cross.id}`, decisive, Math.min(...times), Math.max(...times), caption)];
}

function pointAt(key: string, moment: Moment, from: number, to: number, caption: string): Point {
  const { footageId, pts, bracket } = moment;
  return { key, footageId, pts, at: middle(bracket), from, to, caption: caption.slice(0, longestCaption) };
}

type Part = ClipWish['parts'][number];

function windowOf(
  { review }: IdeasFrom,
  footageId: string,
  clock: ClipClock,
  from: number,
  to: number,
): { readonly part: Part; readonly slow: Part } {
  const { first, last } = framesOfCut(clock, review.footage.find((f) => f.id === footageId)?.cut);
  const at = (time: number): number =>
    ptsOf(clock.table, frameIndex(Math.max(first, Math.min(last, frameShownAt(clock, time)))));
  return {
    part: { from: at(from - around.before), to: at(to + around.after) },
    slow: { from: at(from - around.slowBefore), to: at(to + around.slowAfter) },
  };
}

/** Parts in their order; those that overlap are one. */
function joined(parts: readonly Part[]): Part[] {
  const all: Part[] = [];
  for (const part of parts.toSorted((a, b) => a.from - b.from)) {
    const last = all.at(-1);
    if (last && part.from <= last.to)
      all[all.length - 1] = { from: last.from, to: Math.max(last.to, part.to) };
    else all.push(part);
  }
  return all;
}
