import type { RunOrder } from '../../../scripts/simulator/run/run.ts';
import { simulateRun } from '../../../scripts/simulator/run/run.ts';
import type { RunRecord } from '../../../scripts/simulator/run/record.ts';
import { runA, runB } from '../../../scripts/simulator/demoRuns.ts';

/** A run drawn from a seed: own dog, things happen by chance. */
export function drawnOrder(seed: number): RunOrder {
  return { ...(seed % 2 === 0 ? runA : runB), seed, traits: {}, happenings: { natural: true } };
}

export function drawnRuns(count: number): RunRecord[] {
  return Array.from({ length: count }, (_, seed) => simulateRun(drawnOrder(seed)));
}

/** When a kind of notice was given at a place; fails where it was not. */
export function at(run: RunRecord, kind: string, place: number): number {
  const found = run.notices.find((n) => n.kind === kind && n.place === place);
  if (!found) throw new Error(`The run has no ${kind} at ${place}.`);
  return found.at;
}
