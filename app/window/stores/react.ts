import { createContext, useContext, useMemo } from 'react';
import { useStore } from 'zustand';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import type { Analysis } from '../../../src/review/analysis.ts';
import type { DogsView } from './dogs.ts';
import type { JobsView, LibraryView } from './library.ts';
import type { Notices } from './notices.ts';
import type { PreferencesView } from './preferences.ts';
import type { ReviewView } from './review.ts';
import type { RuleBooksView } from './ruleBooks.ts';
import type { Route } from './route.ts';
import type { Workbench } from './workbench.ts';

/** Thin bindings of the stores to React; selectors must return what is in the store, not something new. */
export const WorkbenchContext = createContext<Workbench | null>(null);

export function useWorkbench(): Workbench {
  const workbench = useContext(WorkbenchContext);
  if (!workbench) throw new Error('A screen was drawn outside the workbench.');
  return workbench;
}

export function useReview<T>(select: (view: ReviewView) => T): T {
  return useStore(useWorkbench().review, select);
}

export function useLibrary<T>(select: (view: LibraryView) => T): T {
  return useStore(useWorkbench().library, select);
}

export function useJobs<T>(select: (view: JobsView) => T): T {
  return useStore(useWorkbench().jobs, select);
}

export function useRuleBooks<T>(select: (view: RuleBooksView) => T): T {
  return useStore(useWorkbench().ruleBooks, select);
}

export function useDogs<T>(select: (view: DogsView) => T): T {
  return useStore(useWorkbench().dogs, select);
}

export function useNotices<T>(select: (notices: Notices) => T): T {
  return useStore(useWorkbench().notices, select);
}

export function usePreferences<T>(select: (preferences: PreferencesView) => T): T {
  return useStore(useWorkbench().preferences, select);
}

export function useRoute(): Route {
  return useStore(useWorkbench().route, ({ route }) => route);
}

/** The analysis of the open review as it is shown now. */
export function useAnalysis(): Analysis | null {
  const { review } = useWorkbench();
  const state = useReview((view) => view.state);
  const clocks = useReview((view) => view.clocks);
  return useMemo(() => (state && clocks ? review.analysis() : null), [review, state, clocks]);
}

/** The clips that the open review uses, by clip id, as the library knows them. */
export function useClips(): ReadonlyMap<string, ClipSummary> {
  return useLibrary((view) => view.clips);
}
