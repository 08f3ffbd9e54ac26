import { mannerOf } from '../course/kinds.ts';
import type { Taken } from '../review/analysis.ts';
import { middle, type Bracket } from '../time/bracket.ts';
import type { Flight } from './motion.ts';

/** No dog is in the air for longer, seconds (ours): marks further apart belong to something else. */
const longestFlight = 1.5;

/** Times in the air by the coach's marks: every jump with take-off and landing, in the order of time. */
export function flightsOf(
  taken: readonly Pick<Taken, 'kind' | 'single' | 'in' | 'out'>[],
): readonly Flight[] {
  return taken
    .flatMap((t): Flight[] => {
      if (mannerOf(t.kind) !== 'jumped' || t.single || !t.in || !t.out) return [];
      const [from, to] = [middle(t.in.bracket), middle(t.out.bracket)];
      if (!(to > from) || to - from > longestFlight) return [];
      return [{ from, to, unsure: Math.max(unsureOf(t.in.bracket), unsureOf(t.out.bracket)) }];
    })
    .sort((a, b) => a.from - b.from);
}

/** One standard deviation of a moment that lies evenly within its bracket, seconds. */
export const unsureOf = ({ from, to }: Bracket): number => (to - from) / Math.sqrt(12);
