import type { ReviewState } from '../../../../src/review/entities.ts';
import type { Drawing } from '../../../../src/review/marks.ts';
import { actWords } from '../../../../src/words/reviewScreen.ts';
import type { Act, MakeId, Spot } from './act.ts';

type Stroke = Drawing['strokes'][number];
const mostStrokes = 500;

/** The drawing on a frame, or undefined. */
export function drawingOn(
  review: Pick<ReviewState, 'drawings'>,
  spot: Pick<Spot, 'footageId' | 'pts'>,
): Drawing | undefined {
  return review.drawings.find((d) => d.footageId === spot.footageId && d.pts === spot.pts);
}

/** Adds a stroke to the drawing of a frame, or begins one. Null where it has as many as it can hold. */
export function addStroke(
  review: Pick<ReviewState, 'drawings'>,
  spot: Pick<Spot, 'footageId' | 'pts'>,
  stroke: Stroke,
  makeId: MakeId,
): Act | null {
  const there = drawingOn(review, spot);
  if (there && there.strokes.length >= mostStrokes) return null;
  const body: Drawing = there
    ? { ...there, strokes: [...there.strokes, stroke] }
    : { id: makeId(), footageId: spot.footageId, pts: spot.pts, strokes: [stroke] };
  return { label: actWords.stroke, changes: [{ kind: 'drawing', id: body.id, body }] };
}

/** Takes the last stroke off a frame's drawing; null where there is none. */
export function takeStrokeOff(
  review: Pick<ReviewState, 'drawings'>,
  spot: Pick<Spot, 'footageId' | 'pts'>,
): Act | null {
  const there = drawingOn(review, spot);
  if (!there) return null;
  const strokes = there.strokes.slice(0, -1);
  const body = strokes.length === 0 ? null : { ...there, strokes };
  return { label: actWords.strokeBack, changes: [{ kind: 'drawing', id: there.id, body }] };
}

/** Clears a frame's drawing; null where there is none. */
export function clearDrawing(
  review: Pick<ReviewState, 'drawings'>,
  spot: Pick<Spot, 'footageId' | 'pts'>,
): Act | null {
  const there = drawingOn(review, spot);
  return there
    ? { label: actWords.drawingCleared, changes: [{ kind: 'drawing', id: there.id, body: null }] }
    : null;
}
