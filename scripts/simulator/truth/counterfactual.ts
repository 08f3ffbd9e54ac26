import type { Act } from '../actors/handling.ts';
import { lineLengths } from './lineLengths.ts';
import type { RunRecord } from '../run/record.ts';
import type { RunOrder } from '../run/run.ts';
import { simulateRun } from '../run/run.ts';

/** What a cross at another moment would have made of the same dog on the same day. */
export interface Counterfactual {
  readonly place: number;
  /** First cue before take-off, seconds: as it was, and as it would have been. */
  readonly lead: number | null;
  readonly otherLead: number | null;
  /** From out of the place to out of the next: real and other length (m) and time (s). */
  readonly length: number | null;
  readonly otherLength: number | null;
  readonly time: number | null;
  readonly otherTime: number | null;
}

function retimed(acts: readonly Act[], place: number, lead: number): Act[] {
  return acts.map((act) => {
    if (act.do === 'choose') {
      return { ...act, first: retimed(act.first, place, lead), second: retimed(act.second, place, lead) };
    }
    if (act.do !== 'cross' || act.place !== place) return act;
    return { ...act, when: { on: 'expected', place, lead } };
  });
}

/** The same order with the cross at `place` begun `lead` seconds before the expected take-off. */
export function withCrossAt(order: RunOrder, place: number, lead: number): RunOrder {
  return { ...order, handling: { ...order.handling, acts: retimed(order.handling.acts, place, lead) } };
}

function leadAt(run: RunRecord, place: number): number | null {
  const cross = run.crosses.find((c) => c.act.place === place);
  const taken = run.notices.find((n) => n.kind === 'in' && n.place === place);
  return cross && taken ? taken.at - cross.begun : null;
}

/** Plays the same seed again with one cross at another moment and sets the stretch after it side by side. */
export function counterfactual(order: RunOrder, run: RunRecord, place: number, lead: number): Counterfactual {
  const other = simulateRun(withCrossAt(order, place, lead));
  const stretch = lineLengths(run).find((s) => s.from === place);
  const otherStretch = lineLengths(other).find((s) => s.from === place);
  return {
    place,
    lead: leadAt(run, place),
    otherLead: leadAt(other, place),
    length: stretch?.length ?? null,
    otherLength: otherStretch?.length ?? null,
    time: stretch?.time ?? null,
    otherTime: otherStretch?.time ?? null,
  };
}
