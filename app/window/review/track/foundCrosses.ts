import type { CrossAnalysis } from '../../../../src/review/analysis.ts';
import type { Analysis } from '../../../../src/review/analysis.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import { middle } from '../../../../src/time/bracket.ts';
import { around, spanOf } from '../../../../src/track/aroundCross.ts';
import type { CrossFound, TakenAt } from '../../../../src/track/crossesFound.ts';
import { crossFoundWords as words } from '../../../../src/words/aroundCross.ts';
import { crossWords } from '../../../../src/words/trade.ts';
import { put, type Act, type MakeId } from '../marking/act.ts';
import { frameOf, shownOn, type ShownOn } from './proposals.ts';

/** The obstacles of the try that counts, as the coach marked them. */
export const takenTimes = ({ taken, countedTry }: Pick<Analysis, 'taken' | 'countedTry'>): TakenAt[] =>
  taken.flatMap(({ place, try: attempt, in: first, out }) => {
    const [from, to] = [first ?? out, out ?? first];
    return attempt === countedTry && from && to
      ? [{ place, in: middle(from.bracket), out: middle(to.bracket) }]
      : [];
  });

/** The marked cross that one found on the ground is: at its number, or about then. */
export function markedAs(found: CrossFound, crosses: readonly CrossAnalysis[]): CrossAnalysis | null {
  const at = found.crossed.handlerAt.value;
  const about = crosses.find((c) => {
    const span = spanOf(c);
    return span !== null && at >= span.from - around && at <= span.to + around;
  });
  return about ?? crosses.find((c) => c.place === found.place) ?? null;
}

/**
 * Makes a cross of one that was found: its number, its kind, its tie to the plan, and the frame on which it is finished,
 * as unsure as that moment is. Of a cross that is marked only that frame is added, and only where the coach has not set
 * it. Null where nothing is left to take.
 */
export function takeFound(
  review: Pick<ReviewState, 'marks' | 'crosses'>,
  found: CrossFound,
  markedId: string | null,
  clips: readonly ShownOn[],
  makeId: MakeId,
): Act | null {
  const clip = shownOn(clips, found.finished.value);
  const marked = review.crosses.find((c) => c.id === markedId);
  const done = review.marks.some(
    (m) => m.kind === 'cross' && m.crossId === marked?.id && m.part === 'cueEnds',
  );
  if (!clip || done) return null;
  const id = marked?.id ?? makeId();
  const mark = {
    id: makeId(),
    kind: 'cross' as const,
    footageId: clip.footageId,
    ...frameOf(clip.clock, found.finished, true),
    note: '',
    crossId: id,
    part: 'cueEnds' as const,
  };
  const { place, kind, plannedId } = found;
  const body = { id, place, kind, note: '', ...(plannedId === null ? {} : { plannedId }) };
  return {
    label: words.taken(crossWords[(marked ?? found).kind], (marked ?? found).place),
    changes: [...(marked ? [] : [{ kind: 'cross' as const, id, body }]), put(mark)],
    selects: mark.id,
  };
}
