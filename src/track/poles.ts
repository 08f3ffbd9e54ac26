import type { Taken } from '../review/analysis.ts';
import { middle } from '../time/bracket.ts';

/** A time between weave poles, from entry to exit, seconds. */
export interface Weave {
  readonly from: number;
  readonly to: number;
}

/** No dog is between twelve poles for longer, seconds (ours): marks further apart belong to something else. */
const longestWeave = 20;

/** Times between weave poles by the coach's marks, in the order of time. */
export function weavesOf(taken: readonly Pick<Taken, 'kind' | 'single' | 'in' | 'out'>[]): readonly Weave[] {
  return taken
    .flatMap((t): Weave[] => {
      if (t.kind !== 'weavePoles' || t.single || !t.in || !t.out) return [];
      const [from, to] = [middle(t.in.bracket), middle(t.out.bracket)];
      return to > from && to - from <= longestWeave ? [{ from, to }] : [];
    })
    .sort((a, b) => a.from - b.from);
}

/** Metres from one pole to the next (FCI 2018 A.4, from memory): she is back on the same side after two. */
const spacing = 0.6;
/** How far the marked point swings to either side of the poles, metres, at least and at most (assumed: half a dog's width). */
const aside = { least: 0.05, most: 0.15 } as const;

/** Way over progress for a wave that is low against its length: 1 + (π a / λ)², the arc of a sine to second order. */
const overProgress = (a: number): number => 1 + ((Math.PI * a) / (2 * spacing)) ** 2;

const [least, most] = [overProgress(aside.least), overProgress(aside.most)];

/**
 * How much longer than the smoothed line the way between poles is, as a share of it. A mark a stride meets her at much the
 * same side of every second pole, so that no mark shows how far she swings meanwhile: only what a dog can do is known.
 */
export const swing = { longer: (least + most) / 2 - 1, plusMinus: (most - least) / 2 } as const;
