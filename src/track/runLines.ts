import type { ClipClock } from '../time/bracket.ts';
import type { Against } from './contradictions.ts';
import { readingsFrom, type GroundView, type MarkLeftOut } from './fromMarks.ts';
import type { Flight } from './motion.ts';
import type { Pair } from './pairs.ts';
import { realLine, type RealLine } from './realLine.ts';
import type { LineReading } from './readings.ts';
import type { Track, TrackMark } from './track.ts';

/**
 * Why a mark says nothing of the line: as its reading has it; `noFit`: no course is fitted to its frame; `inFlight`,
 * `others`: no dog could have been there (contradictions.ts).
 */
export type LeftOut = MarkLeftOut | { readonly mark: TrackMark; readonly why: 'noFit' | Against };

/** The line of one body point, as far as its marks tell it. */
export interface MarkedLine {
  readonly track: Track;
  readonly readings: readonly LineReading[];
  readonly leftOut: readonly LeftOut[];
  /** Null as long as there are too few marks. */
  readonly line: RealLine | null;
}

export interface RunLines {
  readonly dog: MarkedLine | null;
  readonly handler: MarkedLine | null;
}

export interface LinesWish {
  readonly tracks: readonly Track[];
  readonly footageId: string;
  /** The body points that the coach is at; where one has no mark, the one with most marks stands for it. */
  readonly points: { readonly dog: string; readonly handler: string };
  readonly clock: ClipClock;
  readonly cut?: { readonly from: number; readonly to: number } | undefined;
  readonly view: GroundView;
  /** Whether the fit of the view holds for a frame, presentation time. */
  readonly holds: (pts: number) => boolean;
  readonly flights: readonly Flight[];
}

/** Fewer places make no line that a coach could trust (ours). */
export const fewestMarks = 4;

/** Longest time between two stored states, seconds; places between them are exact too (whereAt). */
const step = 0.1;

/** The lines that dog and handler ran on one clip. Both carry the error of the one fit that they share. */
export function runLines(wish: LinesWish): RunLines {
  const of = (who: Track['who']): MarkedLine | null => {
    const track = trackShown(wish.tracks, wish.footageId, who, wish.points[who]);
    return track ? lineOf(track, wish) : null;
  };
  return { dog: of('dog'), handler: of('handler') };
}

/** Of the tracks of a body that runs: the one of this point where it has marks, else the one with most. */
export function trackShown(
  tracks: readonly Track[],
  footageId: string,
  who: Track['who'],
  point: string,
): Track | null {
  const its = tracks
    .filter((t) => t.footageId === footageId && t.who === who && t.during === 'run' && t.marks.length > 0)
    .sort((a, b) => b.marks.length - a.marks.length);
  return its.find((t) => t.point === point) ?? its[0] ?? null;
}

function lineOf(track: Track, { clock, cut, view, holds, flights }: LinesWish): MarkedLine {
  const held = track.marks.filter((m) => holds(m.pts));
  const { readings, marks, leftOut } = readingsFrom({ marks: held }, clock, view, cut);
  const outside = track.marks.filter((m) => !holds(m.pts)).map((mark): LeftOut => ({ mark, why: 'noFit' }));
  const line =
    readings.length < fewestMarks
      ? null
      : realLine({
          who: track.who,
          readings,
          // A handler jumps nothing.
          flights: track.who === 'dog' ? flights : [],
          step,
          ...(view.error ? { fit: view.error } : {}),
        });
  const against = (line?.against ?? []).flatMap(({ place, why }): LeftOut[] => {
    const mark = marks[place];
    return mark ? [{ mark, why }] : [];
  });
  return { track, readings, leftOut: [...against, ...leftOut, ...outside], line };
}

/** Dog and handler where both have a line. */
export function pairOf({ dog, handler }: RunLines): Pair | null {
  return dog?.line && handler?.line ? { dog: dog.line, handler: handler.line } : null;
}
