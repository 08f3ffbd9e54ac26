import { middle } from '../../time/bracket.ts';
import { samePlace, type RunBeside } from './sideBySide.ts';

/** How runs are held together: both dogs at the same place of the course, or as long after they stood level. */
export type Lock = 'place' | 'clock';

/**
 * The run time at which another run is to be looked at while this one is at a moment.
 * @returns null where the two share nothing by which they could be held together
 */
export function heldAt(lock: Lock, at: number, from: RunBeside, to: RunBeside): number | null {
  if (lock === 'place') return samePlace(at, from, to);
  const level = levelOf(from, to);
  return level && at - level.from + level.to;
}

/** Run times at which two runs stand level: the start of both clocks, or the first out that both have. */
function levelOf(from: RunBeside, to: RunBeside): { readonly from: number; readonly to: number } | null {
  const [a, b] = [from.analysis.clock, to.analysis.clock];
  if (a && b && a.startedBy === b.startedBy)
    return { from: middle(a.start.bracket), to: middle(b.start.bracket) };
  const outs = outsOf(to);
  for (const [place, at] of outsOf(from)) {
    const there = outs.get(place);
    if (there !== undefined) return { from: at, to: there };
  }
  return null;
}

function outsOf({ analysis: { taken, countedTry } }: RunBeside): ReadonlyMap<number, number> {
  return new Map(
    taken.flatMap((t) => (t.try === countedTry && t.out ? [[t.place, middle(t.out.bracket)] as const] : [])),
  );
}
