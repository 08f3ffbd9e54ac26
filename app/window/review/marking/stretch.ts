import type { Mark, TakenMark } from '../../../../src/review/marks.ts';
import type { Span } from '../line/scale.ts';
import type { Timed } from './order.ts';

const around = 1;
const aroundCross = 0.5;

/**
 * The stretch of run time that belongs to a mark, to play round and round: for an obstacle from the out before it
 * to its own out, for a cross all its moments with half a second either side, else a second either side.
 */
export function stretchOf(selected: Timed<Mark>, ordered: readonly Timed<Mark>[]): Span {
  const { mark } = selected;
  if (mark.kind === 'cross') {
    const moments = ordered.filter((t) => t.mark.kind === 'cross' && t.mark.crossId === mark.crossId);
    return hull(moments, aroundCross);
  }
  if (mark.kind !== 'taken') return hull([selected], around);
  const taken = ordered.filter(
    (t): t is Timed<TakenMark> => t.mark.kind === 'taken' && t.mark.try === mark.try,
  );
  const own = taken.filter((t) => t.mark.place === mark.place);
  const first = own[0]?.at ?? selected.at;
  const last = own.at(-1)?.at ?? selected.at;
  const before = taken.findLast((t) => t.at < first && t.mark.edge !== 'in');
  return { from: before?.at ?? first - around, to: own.length > 1 ? last : last + around };
}

function hull(list: readonly Timed<Mark>[], room: number): Span {
  const times = list.map((t) => t.at);
  return { from: Math.min(...times) - room, to: Math.max(...times) + room };
}
