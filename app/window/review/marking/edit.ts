import type { Change, ReviewState } from '../../../../src/review/entities.ts';
import type { Mark, TakenMark } from '../../../../src/review/marks.ts';
import { actWords } from '../../../../src/words/reviewScreen.ts';
import { drop, movedTo, put, type Act, type Spot } from './act.ts';
import { hasRoom, numbersOf, roomFor } from './numbers.ts';
import type { Timed } from './order.ts';

/** Steps of "unsure" that one key goes round. */
export const unsureSteps = [0, 1, 2, 3] as const;

/** Puts the mark on another frame. `name` says which mark, for the reader. */
export function moveMark(mark: Mark, spot: Spot, name: string): Act {
  return { label: actWords.movedMark(name), changes: [put(movedTo(mark, spot))], selects: mark.id };
}

/**
 * The next step of "unsure": 0, 1, 2, 3 frames and round. A mark that is less sure than that (pressed while the run
 * was playing) becomes sure: the coach has looked at the frame.
 */
export function nextUnsure(unsure: number): number {
  return unsure >= 3 ? 0 : unsure + 1;
}

/** Says by how many frames the mark may be off. */
export function setUnsure(mark: Mark, unsure: number, name: string): Act {
  return { label: actWords.unsure(name, unsure), changes: [put({ ...mark, unsure })], selects: mark.id };
}

/** Changes the note of a mark. */
export function setNote(mark: Mark, note: string, name: string): Act {
  return {
    label: actWords.noteChanged(name),
    changes: [put({ ...mark, note: note.slice(0, 2000) })],
    selects: mark.id,
  };
}

/** Gives a mark another obstacle. Both edges of an obstacle taken go together: the number belongs to the obstacle. */
export function setPlace(
  review: Pick<ReviewState, 'id' | 'course' | 'marks'>,
  mark: Mark,
  place: number | undefined,
  name: string,
): Act | null {
  if (place !== undefined && !hasRoom(numbersOf(review.course), place)) return null;
  if (mark.kind === 'taken') {
    if (place === undefined) return null;
    const pair = review.marks.filter(
      (m): m is TakenMark => m.kind === 'taken' && m.place === mark.place && m.try === mark.try,
    );
    return {
      label: actWords.renumbered(name, place),
      changes: [...roomFor(review, place), ...pair.map((m) => put({ ...m, place }))],
      selects: mark.id,
    };
  }
  if (mark.kind !== 'event') return null;
  const { place: _before, ...bare } = mark;
  return {
    label: place === undefined ? actWords.unbound(name) : actWords.renumbered(name, place),
    changes: [...roomFor(review, place), put(place === undefined ? bare : { ...bare, place })],
    selects: mark.id,
  };
}

/**
 * Moves the numbers of this obstacle and all later ones of its try up or down by one: for an obstacle that was left
 * out or counted twice. Events and crosses after it follow. Null where a number would leave the course.
 */
export function shiftNumbers(
  review: Pick<ReviewState, 'id' | 'course' | 'crosses'>,
  from: Timed<TakenMark>,
  ordered: readonly Timed[],
  by: -1 | 1,
): Act | null {
  const numbers = numbersOf(review.course);
  let highest = 0;
  const shifted: Change[] = [];
  for (const { mark, at } of ordered) {
    const taken = mark.kind === 'taken' && mark.try === from.mark.try && mark.place >= from.mark.place;
    const event = mark.kind === 'event' && mark.place !== undefined && at >= from.at;
    if (!taken && !event) continue;
    const place = (mark.place ?? 0) + by;
    if (!hasRoom(numbers, place)) return null;
    highest = Math.max(highest, place);
    shifted.push(put({ ...mark, place }));
  }
  for (const cross of review.crosses) {
    const first = ordered.find((t) => t.mark.kind === 'cross' && t.mark.crossId === cross.id);
    if (!first || first.at < from.at) continue;
    const place = cross.place + by;
    if (!hasRoom(numbers, place)) return null;
    highest = Math.max(highest, place);
    shifted.push({ kind: 'cross', id: cross.id, body: { ...cross, place } });
  }
  return {
    label: actWords.shifted(from.mark.place, by),
    changes: [...roomFor(review, highest), ...shifted],
    selects: from.mark.id,
  };
}

/** Takes a mark out of the review. */
export function removeMark(mark: Mark, name: string): Act {
  return { label: actWords.removed(name), changes: [drop(mark.id)], selects: null };
}
