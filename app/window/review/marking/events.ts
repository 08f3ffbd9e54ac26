import type { Change, ReviewState } from '../../../../src/review/entities.ts';
import type { RefusalKind } from '../../../../src/course/refusals.ts';
import type { EventMark, StartMark, StartPart } from '../../../../src/review/marks.ts';
import { eventName } from '../../../../src/words/review.ts';
import { actWords } from '../../../../src/words/reviewScreen.ts';
import { startPartWords } from '../../../../src/words/trade.ts';
import { put, type Act, type MakeId, type Spot } from './act.ts';
import { roomFor } from './numbers.ts';

/** The act of noting an event at `spot`, bound to `place` where it has one. */
export function noteEvent(
  review: Pick<ReviewState, 'id' | 'course'>,
  event: EventMark['event'],
  place: number | undefined,
  spot: Spot,
  makeId: MakeId,
  refusal?: RefusalKind,
  ownLabel: string | null = null,
): Act {
  const mark: EventMark = {
    id: makeId(),
    kind: 'event',
    footageId: spot.footageId,
    pts: spot.pts,
    unsure: spot.unsure,
    note: '',
    event,
    ...(place === undefined ? {} : { place }),
    ...(refusal === undefined ? {} : { refusal }),
  };
  const name = eventName(mark, ownLabel);
  return {
    label: place === undefined ? actWords.noted(name) : actWords.marked(name, place),
    changes: [...roomFor(review, place), put(mark)],
    selects: mark.id,
  };
}

/** The act of marking a moment at the start line. */
export function markStart(part: StartPart, attempt: number, spot: Spot, makeId: MakeId): Act {
  const mark: StartMark = {
    id: makeId(),
    kind: 'start',
    footageId: spot.footageId,
    pts: spot.pts,
    unsure: spot.unsure,
    note: '',
    part,
    try: attempt,
  };
  return {
    label: actWords.startMoment(startPartWords[part], attempt),
    changes: [put(mark)],
    selects: mark.id,
  };
}

/** Largest number of event kinds of the coach's own in one review. */
export const mostOwnEvents = 60;

/**
 * Notes an event of a new kind of the coach's own: the kind enters the header in the same act. A label that is
 * there already (whatever its case) is used again. Null for an empty label or where there is room for no more.
 */
export function noteNewKind(
  review: Pick<ReviewState, 'id' | 'course' | 'header'>,
  label: string,
  place: number | undefined,
  spot: Spot,
  makeId: MakeId,
): Act | null {
  const text = label.trim().slice(0, 60);
  if (text === '') return null;
  const { header } = review;
  const known = header.ownEvents.find((e) => e.label.toLowerCase() === text.toLowerCase());
  if (known) return noteEvent(review, known.id, place, spot, makeId, undefined, known.label);
  if (header.ownEvents.length >= mostOwnEvents) return null;
  const id = `own:${makeId()}` as const;
  const widened: Change = {
    kind: 'header',
    id: review.id,
    body: { ...header, ownEvents: [...header.ownEvents, { id, label: text }] },
  };
  const act = noteEvent(review, id, place, spot, makeId, undefined, text);
  return { ...act, changes: [widened, ...act.changes] };
}
