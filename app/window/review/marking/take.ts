import { obstacleAt } from '../../../../src/course/course.ts';
import type { Change, ReviewState } from '../../../../src/review/entities.ts';
import type { Mark, TakenMark } from '../../../../src/review/marks.ts';
import { edgeWord } from '../../../../src/words/review.ts';
import { actWords } from '../../../../src/words/reviewScreen.ts';
import { drop, movedTo, put, type Act, type MakeId, type Spot } from './act.ts';
import { pressedPlace, type AtHand } from './atHand.ts';
import { hasRoom, numbersOf, roomFor } from './numbers.ts';
import type { Timed } from './order.ts';

/** Marks of one edge further apart than this are two attempts at an obstacle, not one mark corrected. Seconds. */
const anotherAttempt = 1;

/**
 * The act of marking an edge of the obstacle at hand at `spot`. An edge that is marked already is moved here, so
 * that pressing again corrects; a typed number far from its earlier mark adds an attempt (an entry missed and
 * taken again). One mark for both replaces the two, and the other way round. Null where all numbers are taken, or
 * the typed one is not on the course.
 */
export function take(
  press: TakenMark['edge'],
  ordered: readonly Timed<Mark>[],
  review: Pick<ReviewState, 'id' | 'course'>,
  hand: AtHand,
  spot: Spot & { readonly now: number },
  makeId: MakeId,
): Act | null {
  const numbers = numbersOf(review.course);
  const place = pressedPlace(press, hand, numbers, spot.now);
  if (place === null || !hasRoom(numbers, place)) return null;
  const word = edgeWord(obstacleAt(review.course, place)?.kind ?? 'unknown', press);
  const there = ordered.filter(
    (t): t is Timed<TakenMark> =>
      t.mark.kind === 'taken' && t.mark.place === place && t.mark.try === hand.try,
  );
  const same = nearest(
    there.filter((t) => t.mark.edge === press),
    spot.now,
  );
  const moves = same && !(hand.typed && Math.abs(same.at - spot.now) > anotherAttempt);
  const mark: TakenMark = moves
    ? movedTo(same.mark, spot)
    : {
        id: makeId(),
        kind: 'taken',
        footageId: spot.footageId,
        pts: spot.pts,
        unsure: spot.unsure,
        note: '',
        place,
        edge: press,
        try: hand.try,
      };
  const replaced: Change[] = there
    .filter((t) => (press === 'whole') !== (t.mark.edge === 'whole'))
    .map((t) => drop(t.mark.id));
  return {
    label: moves ? actWords.moved(word, place) : actWords.marked(word, place),
    changes: [...roomFor(review, place), put(mark), ...replaced],
    selects: mark.id,
  };
}

function nearest<M extends Mark>(list: readonly Timed<M>[], now: number): Timed<M> | null {
  return list.reduce<Timed<M> | null>(
    (best, t) => (best && Math.abs(best.at - now) <= Math.abs(t.at - now) ? best : t),
    null,
  );
}
