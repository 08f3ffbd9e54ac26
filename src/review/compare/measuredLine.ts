import type { Course } from '../../course/course.ts';
import type { PictureSize } from '../../course/pictureLay.ts';
import { clipFit, fitHolding } from '../../ground/clipFit.ts';
import { knownPoints } from '../../ground/knownPoints.ts';
import { middle } from '../../time/bracket.ts';
import type { Quantity } from '../../time/quantity.ts';
import { lengthBetween, waysOf } from '../../track/figures.ts';
import { flightsOf } from '../../track/flights.ts';
import { groundViewOf } from '../../track/groundView.ts';
import type { RealLine } from '../../track/realLine.ts';
import { runLines } from '../../track/runLines.ts';
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
 * The dog's line of a review: the body point that was clicked most within one fit of the course, since a line follows
 * one point through one camera.
 * @returns null where no track can be brought to the ground
 */
export function measuredLine(
  review: Pick<ReviewState, 'tracks' | 'fits' | 'footage'>,
  clocks: Clocks,
  analysis: Pick<Analysis, 'taken' | 'countedTry'>,
  { course, pictures, seed }: MeasureWith,
): MeasuredLine | null {
  const chosen = mostClicked(review);
  const clock = chosen && clocks.get(chosen.footageId);
  const picture = chosen && pictures.get(chosen.footageId);
  if (!chosen || !clock || !picture) return null;
  const { result, off } = clipFit(chosen.fit, knownPoints(course), picture);
  if (!result.fitted) return null;
  const standing = off?.bump.verdict === 'moved' ? off.pts : Infinity;
  const { footageId, fit, point } = chosen;
  const { dog } = runLines({
    tracks: review.tracks,
    footageId,
    points: { dog: point, handler: '' },
    clock,
    cut: review.footage.find((f) => f.id === footageId)?.cut,
    view: groundViewOf(result),
    holds: (pts) => pts < standing && fitHolding(review.fits, footageId, pts)?.id === fit.id,
    flights: flightsOf(analysis.taken.filter((t) => t.try === analysis.countedTry)),
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
  readonly fit: ReviewState['fits'][number];
  readonly point: string;
  readonly count: number;
}

function mostClicked({ tracks, fits }: Pick<ReviewState, 'tracks' | 'fits'>): Clicked | null {
  const groups = new Map<string, Clicked>();
  for (const { who, during, footageId, point, marks } of tracks) {
    if (who !== 'dog' || during !== 'run') continue;
    for (const mark of marks) {
      const fit = fitHolding(fits, footageId, mark.pts);
      if (!fit) continue;
      const key = JSON.stringify([fit.id, point]);
      groups.set(key, { footageId, fit, point, count: (groups.get(key)?.count ?? 0) + 1 });
    }
  }
  return [...groups.values()].reduce<Clicked | null>(
    (best, g) => (best && best.count >= g.count ? best : g),
    null,
  );
}
