import { mostFits } from '../../../../src/review/document.ts';
import type { Change, ReviewState } from '../../../../src/review/entities.ts';
import { fitHolding } from '../../../../src/ground/clipFit.ts';
import { mostFitPoints, type CourseFit, type FitPoint } from '../../../../src/ground/courseFit.ts';
import type { KnownPoint } from '../../../../src/ground/knownPoints.ts';
import { partKey } from '../../../../src/ground/parts.ts';
import { groundWords } from '../../../../src/words/groundPage.ts';
import type { Act, MakeId } from '../marking/act.ts';
import type { Place } from '../look/magnifier.ts';

const words = groundWords;

/** The frame on which one works. */
export interface OnFrame {
  readonly footageId: string;
  readonly pts: number;
}

/** An act, or why there is none. */
export type GroundEdit = Act | { readonly refused: string };

type Fits = Pick<ReviewState, 'fits'>;

const put = (body: CourseFit): Change => ({ kind: 'fit', id: body.id, body });
const isOn = (p: FitPoint, id: string, pts: number): boolean => p.pts === pts && partKey(p.part) === id;
/** Places are kept to a hundredth of a pixel of the largest picture. */
const rounded = (v: number): number => Math.round(Math.max(0, Math.min(1, v)) * 1e7) / 1e7;

/**
 * Puts a part where it was clicked on a frame, in the fit that holds there, or in a first one. A click on another
 * frame stands beside the earlier one: together they tell whether the camera still stands.
 * @param how `agreed` where the coach did not click, but took what the fit shows
 */
export function pointPut(
  review: Fits,
  known: KnownPoint,
  at: Place,
  on: OnFrame,
  makeId: MakeId,
  how: 'clicked' | 'agreed' = 'clicked',
): GroundEdit {
  const there = fitHolding(review.fits, on.footageId, on.pts);
  if (!there && review.fits.length >= mostFits) return { refused: words.said.fullFits };
  const others = (there?.points ?? []).filter((p) => !isOn(p, known.id, on.pts));
  if (others.length >= mostFitPoints) return { refused: words.said.full };
  const point: FitPoint = {
    part: known.part,
    at: { x: rounded(at.x), y: rounded(at.y) },
    pts: on.pts,
    ...(how === 'agreed' ? { agreed: true } : {}),
  };
  // What was agreed to gives way to a click on any frame.
  const kept = others.filter((p) => how === 'agreed' || p.agreed !== true || partKey(p.part) !== known.id);
  const body: CourseFit = {
    ...(there ?? { id: makeId(), footageId: on.footageId }),
    points: [...kept, point],
  };
  const was = kept.length < (there?.points.length ?? 0);
  const label = how === 'agreed' ? words.acts.agreed : was ? words.acts.moved : words.acts.set;
  return { label: label(known.name), changes: [put(body)] };
}

/** Takes a part's click off: that of this frame, else all it has in the fit that holds here. */
export function pointRemoved(review: Fits, known: KnownPoint, on: OnFrame): GroundEdit {
  const there = fitHolding(review.fits, on.footageId, on.pts);
  const mine = there?.points.filter((p) => partKey(p.part) === known.id) ?? [];
  if (!there || mine.length === 0) return { refused: words.said.notClicked };
  const here = mine.filter((p) => p.pts === on.pts);
  const gone = here.length > 0 ? here : mine;
  const body = { ...there, points: there.points.filter((p) => !gone.includes(p)) };
  return { label: words.acts.removed(known.name), changes: [put(body)] };
}

/**
 * The camera was moved: from this frame on another fit holds. What was clicked from here on goes over to it, what was
 * clicked before stays.
 * @param last presentation time of the clip's last frame
 */
export function refitFrom(
  review: Fits,
  on: OnFrame,
  { last, frame }: { readonly last: number; readonly frame: number },
  makeId: MakeId,
): GroundEdit {
  const there = fitHolding(review.fits, on.footageId, on.pts);
  if (!there) return { refused: words.said.nothingToRefit };
  if (there.span?.from === on.pts) return { refused: words.said.begins };
  if (review.fits.length >= mostFits) return { refused: words.said.fullFits };
  const to = there.span?.to ?? Math.max(last, on.pts);
  const next: CourseFit = {
    id: makeId(),
    footageId: on.footageId,
    points: there.points.filter((p) => p.pts >= on.pts && p.agreed !== true),
    span: { from: on.pts, to },
  };
  const before = { ...there, points: there.points.filter((p) => p.pts < on.pts) };
  return { label: words.acts.refit(frame), changes: [put(before), put(next)] };
}

/** Takes the fit that holds here away, with all its points. */
export function fitRemoved(review: Fits, on: OnFrame): GroundEdit {
  const there = fitHolding(review.fits, on.footageId, on.pts);
  if (!there) return { refused: words.said.noFit };
  return { label: words.acts.over, changes: [{ kind: 'fit', id: there.id, body: null }] };
}
