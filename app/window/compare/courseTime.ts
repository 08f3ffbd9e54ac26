import { useMemo } from 'react';
import { useStore } from 'zustand';
import { samePlace, type RunBeside } from '../../../src/review/compare/sideBySide.ts';
import { middle } from '../../../src/time/bracket.ts';
import type { Lockstep, LockView } from './lockstep.ts';

/** Where one is on the course, told on the clock of the first run: that is what figures and map count by. */
export interface CourseTime {
  /** Run time of the first run for a run time of the leader; null where the two share nothing. */
  now(at: number): number | null;
  /** To a run time of the first run. */
  goTo(at: number): void;
  /** To the out of a number. */
  goToPlace(place: number): void;
  /** To the next number that the first run took, or the one before. */
  stepPlace(by: 1 | -1): void;
  /** The number taken last at a run time of the first run. */
  placeAt(at: number): number | null;
  /** Where the first run took its numbers, in the order of time. */
  readonly outs: readonly { readonly place: number; readonly at: number }[];
}

/** A press on the same number lands there again; within this many seconds one stands on it. */
const onIt = 0.02;

export function useCourseTime(lockstep: Lockstep, beside: readonly RunBeside[]): CourseTime {
  return useMemo(() => {
    const [first] = beside;
    const outs = (first?.analysis.taken ?? [])
      .flatMap((t) =>
        t.out && t.try === first?.analysis.countedTry ? [{ place: t.place, at: middle(t.out.bracket) }] : [],
      )
      .sort((a, b) => a.at - b.at);
    const leader = (): RunBeside | undefined => beside[lockstep.store.getState().leader];
    const now = (at: number): number | null => {
      const lead = leader();
      if (!first || !lead || lead === first) return at;
      return samePlace(at, lead, first);
    };
    const goTo = (at: number): void => {
      const lead = leader();
      const there = !first || !lead || lead === first ? at : samePlace(at, first, lead);
      if (there !== null) lockstep.goTo(there);
    };
    return {
      now,
      goTo,
      outs,
      goToPlace(place) {
        const out = outs.find((o) => o.place === place);
        if (out) goTo(out.at);
      },
      stepPlace(by) {
        const at = now(lockstep.store.getState().at);
        if (at === null) return;
        const next = by > 0 ? outs.find((o) => o.at > at + onIt) : outs.findLast((o) => o.at < at - onIt);
        if (next) goTo(next.at);
      },
      placeAt: (at) => outs.findLast((o) => o.at <= at + onIt)?.place ?? null,
    };
  }, [lockstep, beside]);
}

/** A part of what the lock shows; selectors must return what is in the store. */
export function useLock<T>(lockstep: Lockstep, select: (view: LockView) => T): T {
  return useStore(lockstep.store, select);
}
