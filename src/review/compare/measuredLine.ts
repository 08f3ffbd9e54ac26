import type { Course } from '../../course/course.ts';
import type { PictureSize } from '../../course/pictureLay.ts';
import { middle } from '../../time/bracket.ts';
import type { Quantity } from '../../time/quantity.ts';
import { lengthBetween, waysOf } from '../../track/figures.ts';
import { groundFits, type GroundFit } from '../../track/groundFits.ts';
import type { RealLine } from '../../track/realLine.ts';
import { runLines, type LinePart } from '../../track/runLines.ts';
import type { Analysis } from '../analysis.ts';
import type { ReviewState } from '../entities.ts';
import type { Clocks } from '../moments.ts';

/** The dog's line as it was measured, and the stretches that it has from end to end. */
export interface MeasuredLine {
  readonly line: RealLine;
  /** Metres from out to out, by the number that ends the stretch. */
  readonly lengths: ReadonlyMap<number, Quantity>;
}

/** What of the measuring is not in the review. */
export interface MeasureWith {
  /** The review's course, built by its rule book. */
  readonly course: Course;
  /** Upright pictures of the clips, pixels, by footage id. */
  readonly pictures: ReadonlyMap<string, PictureSize>;
  /** Seed of the ways that lengths are read from: lines that are compared take different ones. */
  readonly seed: number;
}

/**
 * The dog's line of a review: of the body point that was clicked most on one clip, wherever else that was clicked too.
 * @returns null where no track can be brought to the ground
 */
export function measuredLine(
  review: Pick<ReviewState, 'tracks' | 'fits' | 'footage'>,
  clocks: Clocks,
  analysis: Pick<Analysis, 'taken' | 'countedTry'>,
  { course, pictures, seed }: MeasureWith,
): MeasuredLine | null {
  const worked = [...pictures].flatMap(([id, picture]) => groundFits(review.fits, course, picture, id));
  const chosen = mostClicked(review, worked);
  if (!chosen) return null;
  const parts = worked.flatMap(({ footageId, view, holds }): LinePart[] => {
    const clock = clocks.get(footageId);
    const marked = review.tracks.some(
      (t) => t.footageId === footageId && t.point === chosen.point && t.marks.some((m) => holds(m.pts)),
    );
    const cut = review.footage.find((f) => f.id === footageId)?.cut;
    return clock && marked ? [{ footageId, clock, cut, view, holds }] : [];
  });
  const { dog } = runLines({
    tracks: review.tracks,
    footageId: chosen.footageId,
    points: { dog: chosen.point, handler: '' },
    parts,
    taken: analysis.taken.filter((t) => t.try === analysis.countedTry),
  });
  const line = dog?.line;
  if (!line) return null;
  const ways = waysOf(line, seed);
  const outs = new Map(
    analysis.taken.flatMap((t) =>
      t.try === analysis.countedTry && t.out ? [[t.place, middle(t.out.bracket)] as const] : [],
    ),
  );
  const lengths = new Map<number, Quantity>();
  for (const [place, to] of outs) {
    const from = outs.get(place - 1);
    // A length is told only for a stretch that the line has from end to end.
    if (from === undefined || from < line.from || to > line.to) continue;
    const length = lengthBetween(ways, from, to);
    if (length) lengths.set(place, length);
  }
  return { line, lengths };
}

interface Clicked {
  readonly footageId: string;
  readonly point: string;
  readonly count: number;
}

function mostClicked({ tracks }: Pick<ReviewState, 'tracks'>, worked: readonly GroundFit[]): Clicked | null {
  const runs = tracks
    .filter((t) => t.who === 'dog' && t.during === 'run')
    .map((t): Clicked => {
      const fits = worked.filter((w) => w.footageId === t.footageId);
      const count = t.marks.filter((m) => fits.some((w) => w.holds(m.pts))).length;
      return { footageId: t.footageId, point: t.point, count };
    });
  return runs.reduce<Clicked | null>((best, t) => (t.count > (best?.count ?? 0) ? t : best), null);
}
