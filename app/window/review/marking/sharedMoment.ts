import type { ReviewState } from '../../../../src/review/entities.ts';
import { byMoment, linedUp, whichStays } from '../../../../src/review/lineUp.ts';
import type { Clocks } from '../../../../src/review/moments.ts';
import { ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex } from '../../../../src/time/units.ts';
import { lineUpWords } from '../../../../src/words/lineUp.ts';
import type { SharedSpot } from '../desk/view.ts';
import type { Act } from './act.ts';

/** Lines two clips up by a moment that was shown on both; null where one of them cannot be used. */
export function lineUpByMoment(
  review: Pick<ReviewState, 'footage'>,
  clocks: Clocks,
  one: SharedSpot,
  other: SharedSpot,
): Act | null {
  const { stays, moves } = whichStays(review.footage, one.footageId, other.footageId);
  const [base, moved] = [stays, moves].map((id) => {
    const clock = clocks.get(id);
    const { frame } = one.footageId === id ? one : other;
    return clock && { clock, pts: ptsOf(clock.table, frameIndex(frame)) };
  });
  const name = review.footage.find((f) => f.id === moves)?.name;
  if (!base || !moved || name === undefined || stays === moves) return null;
  const relation = byMoment(base, moved);
  return {
    label: lineUpWords.label.moment(name, relation.plusMinus),
    changes: linedUp(review.footage, stays, moves, relation),
  };
}
