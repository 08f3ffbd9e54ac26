import type { ObstacleKind } from '../../../../src/course/kinds.ts';
import type { CrossKind, Plan } from '../../../../src/plan/plan.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import type { Cross, CrossMark, CrossPart, CueKind } from '../../../../src/review/marks.ts';
import { markName } from '../../../../src/words/review.ts';
import { actWords } from '../../../../src/words/reviewScreen.ts';
import { crossWords } from '../../../../src/words/trade.ts';
import { drop, movedTo, put, type Act, type MakeId, type Spot } from './act.ts';
import type { AtHand } from './atHand.ts';
import { roomFor } from './numbers.ts';

/** The cross being marked. It enters the review with its first moment, so that leaving at once leaves nothing. */
export interface OpenCross {
  readonly cross: Cross;
  readonly stored: boolean;
}

/**
 * The cross to mark at the obstacle at hand: the one that is there, else a new one that ties to the plan's cross at
 * that place. Just after an obstacle the coach may still mean that one: where only it has a cross, marked or
 * planned, it is taken.
 */
export function openCrossAt(
  review: Pick<ReviewState, 'crosses' | 'plan'>,
  hand: AtHand,
  usualKind: CrossKind,
  makeId: MakeId,
): OpenCross {
  const behind = hand.expects === 'in' && !hand.typed ? (hand.last?.mark.place ?? null) : null;
  const ahead = hand.place ?? behind ?? 1;
  const known = (place: number): boolean =>
    review.crosses.some((c) => c.place === place) || review.plan.crosses.some((c) => c.place === place);
  const place = behind !== null && known(behind) && !known(ahead) ? behind : ahead;
  const there = review.crosses.find((c) => c.place === place);
  if (there) return { cross: there, stored: true };
  return {
    cross: { id: makeId(), place, note: '', ...planned(review.plan, place, usualKind) },
    stored: false,
  };
}

function planned(plan: Plan, place: number, usual: CrossKind): Pick<Cross, 'kind' | 'plannedId'> {
  const meant = plan.crosses.find((c) => c.place === place);
  return meant ? { kind: meant.kind, plannedId: meant.id } : { kind: usual };
}

/** The act of marking a moment of a cross; a moment marked before is moved here. */
export function markCross(
  review: Pick<ReviewState, 'id' | 'course' | 'marks'>,
  open: OpenCross,
  part: CrossPart,
  cue: CueKind | undefined,
  kind: ObstacleKind,
  spot: Spot,
  makeId: MakeId,
): Act {
  const before = review.marks.find(
    (m): m is CrossMark =>
      m.kind === 'cross' && m.crossId === open.cross.id && m.part === part && m.cue === cue,
  );
  const mark: CrossMark = before
    ? movedTo(before, spot)
    : {
        id: makeId(),
        kind: 'cross',
        footageId: spot.footageId,
        pts: spot.pts,
        unsure: spot.unsure,
        note: '',
        crossId: open.cross.id,
        part,
        ...(cue === undefined ? {} : { cue }),
      };
  const word = markName(mark, kind);
  return {
    label: before ? actWords.moved(word, open.cross.place) : actWords.marked(word, open.cross.place),
    changes: [
      ...roomFor(review, open.cross.place),
      ...(open.stored ? [] : [{ kind: 'cross' as const, id: open.cross.id, body: open.cross }]),
      put(mark),
    ],
    selects: mark.id,
  };
}

/** The act of changing what kind a cross is, or at which obstacle it stands; the plan's tie follows the place. */
export function changeCross(
  review: Pick<ReviewState, 'id' | 'course' | 'plan'>,
  cross: Cross,
  to: { readonly kind?: CrossKind; readonly place?: number; readonly note?: string },
): { readonly cross: Cross; readonly act: Act } {
  const { plannedId: _before, ...bare } = cross;
  const next = { ...bare, ...to };
  const meant = review.plan.crosses.find((c) => c.place === next.place);
  const body: Cross = meant ? { ...next, plannedId: meant.id } : next;
  return {
    cross: body,
    act: {
      label: actWords.crossChanged(crossWords[body.kind], body.place),
      changes: [...roomFor(review, body.place), { kind: 'cross', id: cross.id, body }],
    },
  };
}

/** The act of removing a cross with all its moments. */
export function removeCross(review: Pick<ReviewState, 'marks'>, cross: Cross): Act {
  const moments = review.marks.filter((m) => m.kind === 'cross' && m.crossId === cross.id);
  return {
    label: actWords.crossRemoved(crossWords[cross.kind], cross.place),
    changes: [...moments.map((m) => drop(m.id)), { kind: 'cross', id: cross.id, body: null }],
    selects: null,
  };
}
