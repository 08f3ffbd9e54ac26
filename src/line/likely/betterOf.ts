import type { Taking } from './gates.ts';
import { takingPrice, type Rank } from './ranks.ts';
import type { Stretch } from './stretch.ts';

interface Option {
  readonly at: readonly number[];
  readonly taking: Taking;
  cost: number;
  by: Option | undefined;
}

/**
 * Of a few figures for each gate the ones that make the quickest run, by dynamic programming. Where neither gate of a
 * stretch has a choice, nothing is priced.
 */
export function betterOf(
  ranks: readonly Rank[],
  stretches: readonly Stretch[],
  offered: (gate: number) => readonly (readonly number[])[],
): readonly (readonly number[])[] {
  let before: readonly Option[] = [];
  ranks.forEach((rank, i) => {
    const options = offered(i).map((at): Option => {
      const taking = rank.gate.taking(at);
      return { at, taking, cost: takingPrice(taking), by: undefined };
    });
    const priced = before.length > 1 || options.length > 1;
    for (const option of options) {
      let least = before.length === 0 ? 0 : Infinity;
      for (const one of before) {
        const way = priced
          ? (stretches[i - 1]?.priceBetween(one.taking.after, option.taking.before) ?? 0)
          : 0;
        if (one.cost + way >= least) continue;
        least = one.cost + way;
        option.by = one;
      }
      option.cost += least;
    }
    before = options;
  });
  let at = before.reduce<Option | undefined>((a, b) => (a && a.cost <= b.cost ? a : b), undefined);
  const begin: (readonly number[])[] = [];
  for (; at; at = at.by) begin.unshift(at.at);
  return begin;
}
