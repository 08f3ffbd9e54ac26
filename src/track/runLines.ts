import type { Taken } from '../review/analysis.ts';
import type { ClipClock } from '../time/bracket.ts';
import type { Against } from './contradictions.ts';
import { flightsOf } from './flights.ts';
import { readingsFrom, type GroundView, type MarkLeftOut } from './fromMarks.ts';
import { joinedErrors, type JoinedErrors } from './joined.ts';
import type { Pair } from './pairs.ts';
import { weavesOf } from './poles.ts';
import { realLine, type RealLine } from './realLine.ts';
import type { LineReading } from './readings.ts';
import type { Track, TrackMark } from './track.ts';

/**
 * Why a mark says nothing of the line: as its reading has it; `noFit`: no course is fitted to its frame; `inFlight`,
 * `others`: no dog could have been there (contradictions.ts).
 */
export type LeftOut = (MarkLeftOut | { readonly mark: TrackMark; readonly why: 'noFit' | Against }) & {
  readonly footageId: string;
};

/** The line of one body point, as far as its marks tell it, on all clips that show the run. */
export interface MarkedLine {
  readonly point: Track['point'];
  readonly readings: readonly LineReading[];
  readonly leftOut: readonly LeftOut[];
  /** Null as long as there are too few marks. */
  readonly line: RealLine | null;
}

export interface RunLines {
  readonly dog: MarkedLine | null;
  readonly handler: MarkedLine | null;
}

/** A clip, or the part of one over which a fit of the course holds. */
export interface LinePart {
  readonly footageId: string;
  readonly clock: ClipClock;
  readonly cut?: { readonly from: number; readonly to: number } | undefined;
  readonly view: GroundView;
  /** Whether the fit of the view holds for a frame, presentation time. */
  readonly holds: (pts: number) => boolean;
}

export interface LinesWish {
  readonly tracks: readonly Track[];
  /** The clip that the coach is at. */
  readonly footageId: string;
  /** The body points that the coach is at; where one has no mark, the one with most marks stands for it. */
  readonly points: { readonly dog: string; readonly handler: string };
  /** All that can be measured of the run. */
  readonly parts: readonly LinePart[];
  /** What she took, of the try that counts. */
  readonly taken: readonly Pick<Taken, 'kind' | 'single' | 'in' | 'out'>[];
}

/** Fewer places make no line that a coach could trust (ours). */
export const fewestMarks = 4;

/** Longest time between two stored states, seconds; places between them are exact too (whereAt). */
const step = 0.1;

/**
 * The lines that dog and handler ran. Marks of one body point on several clips make one line, by the clock of the run;
 * lines of one clip carry the error of the one fit that they share, and each camera has its own.
 */
export function runLines(wish: LinesWish): RunLines {
  // Both lines have the same parameters, so that they can be set beside each other.
  const joined = joinedErrors(wish.parts.map((p) => p.view.error));
  const of = (who: Track['who']): MarkedLine | null => {
    const track = trackShown(wish.tracks, wish.footageId, who, wish.points[who]);
    return track ? lineOf(track, wish, joined) : null;
  };
  return { dog: of('dog'), handler: of('handler') };
}

/** Of the tracks of a body that runs: on this clip the one of this point, else the one with most marks; else elsewhere. */
export function trackShown(
  tracks: readonly Track[],
  footageId: string,
  who: Track['who'],
  point: string,
): Track | null {
  const its = tracks
    .filter((t) => t.who === who && t.during === 'run' && t.marks.length > 0)
    .sort((a, b) => b.marks.length - a.marks.length);
  const here = its.filter((t) => t.footageId === footageId);
  const among = here.length > 0 ? here : its;
  return among.find((t) => t.point === point) ?? among[0] ?? null;
}

function lineOf(
  { who, point }: Track,
  { tracks, parts, taken }: LinesWish,
  joined: JoinedErrors,
): MarkedLine {
  const same = tracks.filter((t) => t.who === who && t.point === point && t.during === 'run');
  const leftOut: LeftOut[] = [];
  const read = parts.flatMap(({ footageId, clock, cut, view, holds }, index) => {
    const held = same.flatMap((t) => (t.footageId === footageId ? t.marks.filter((m) => holds(m.pts)) : []));
    const from = readingsFrom({ marks: held }, clock, view, cut);
    leftOut.push(...from.leftOut.map((o) => ({ ...o, footageId })));
    return from.readings.flatMap((reading, i) => {
      const mark = from.marks[i];
      return mark ? [{ mark, footageId, reading: joined.placed(reading, index) }] : [];
    });
  });
  read.sort((a, b) => a.reading.at - b.reading.at);
  const readings = read.map((r) => r.reading);
  const outside = same.flatMap(({ footageId, marks }) =>
    marks
      .filter((m) => !parts.some((p) => p.footageId === footageId && p.holds(m.pts)))
      .map((mark): LeftOut => ({ mark, footageId, why: 'noFit' })),
  );
  const line =
    readings.length < fewestMarks
      ? null
      : realLine({
          who,
          readings,
          // A handler jumps nothing and weaves through nothing.
          ...(who === 'dog' ? { flights: flightsOf(taken), weaves: weavesOf(taken) } : {}),
          step,
          ...(joined.error ? { fit: joined.error } : {}),
        });
  const against = (line?.against ?? []).flatMap(({ place, why }): LeftOut[] => {
    const of = read[place];
    return of ? [{ mark: of.mark, footageId: of.footageId, why }] : [];
  });
  return { point, readings, leftOut: [...against, ...leftOut, ...outside], line };
}

/** Dog and handler where both have a line. */
export function pairOf({ dog, handler }: RunLines): Pair | null {
  return dog?.line && handler?.line ? { dog: dog.line, handler: handler.line } : null;
}
