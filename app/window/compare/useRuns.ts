import { useEffect, useMemo, useState } from 'react';
import { createStore, useStore, type StoreApi } from 'zustand';
import { builtBy } from '../../../src/course/builtBy.ts';
import type { Course } from '../../../src/course/course.ts';
import type { Analysis } from '../../../src/review/analysis.ts';
import { withAngles } from '../../../src/review/angles.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import type { Clocks } from '../../../src/review/moments.ts';
import { createReview, type ReviewStore } from '../stores/review.ts';
import { useRuleBooks, useWorkbench } from '../stores/react.ts';
import { ruleBookIn } from '../stores/ruleBooks.ts';
import type { Workbench } from '../stores/workbench.ts';

/** A run as it is compared. */
export interface ComparedRun {
  readonly id: string;
  readonly state: ReviewState;
  readonly clocks: Clocks;
  readonly analysis: Analysis;
  /** The course, built by its rule book as far as that is there. */
  readonly built: Course;
}

/** The runs of a compare: all open, or why not. */
export type Opened =
  | { readonly stage: 'opening' }
  | { readonly stage: 'failed'; readonly id: string; readonly why: string }
  | { readonly stage: 'open'; readonly runs: readonly ComparedRun[] };

interface Gathered {
  readonly views: readonly ReturnType<ReviewStore['getState']>[];
}

interface Gathering {
  readonly store: StoreApi<Gathered>;
  open(): () => void;
  analysisOf(run: number): Analysis | null;
}

function gather({ host, notices, frameTables }: Workbench, ids: readonly string[]): Gathering {
  const reviews = ids.map(() => createReview(host, notices, frameTables));
  const views = (): Gathered => ({ views: reviews.map((r) => r.getState()) });
  const store = createStore<Gathered>()(views);
  return {
    store,
    open() {
      const stops = reviews.map((r) => r.subscribe(() => store.setState(views())));
      reviews.forEach((r, i) => {
        r.openReview(ids[i] ?? '');
      });
      return () => {
        for (const stop of stops) stop();
        for (const r of reviews) r.closeReview();
      };
    },
    analysisOf: (run) => reviews[run]?.analysis() ?? null,
  };
}

/** Opens runs beside the window's own review, and follows them as they are changed elsewhere. */
export function useRuns(ids: readonly string[]): Opened {
  const workbench = useWorkbench();
  const [gathering] = useState(() => gather(workbench, ids));
  useEffect(() => gathering.open(), [gathering]);
  const { views } = useStore(gathering.store);
  const books = useRuleBooks((view) => view);
  const wanted = views.flatMap(({ state }) => state?.course.ruleBook ?? []);
  const { ruleBooks } = workbench;
  const list = JSON.stringify(wanted);
  useEffect(() => {
    for (const book of JSON.parse(list) as string[]) ruleBooks.want(book);
  }, [ruleBooks, list]);

  return useMemo((): Opened => {
    const failed = views.find((v) => v.stage === 'failed');
    if (failed) return { stage: 'failed', id: failed.id ?? '', why: failed.failure ?? '' };
    const runs = views.flatMap((view, i): ComparedRun[] => {
      const { state } = view;
      // Frame times that cannot be had are told of by the store; what has none yet is waited for.
      const analysis = gathering.analysisOf(i);
      if (view.stage !== 'open' || !state || !analysis) return [];
      const built = builtBy(state.course, ruleBookIn(books, state.course.ruleBook).book);
      return [{ id: state.id, state, clocks: withAngles(view.clocks, state.footage), analysis, built }];
    });
    return runs.length === views.length ? { stage: 'open', runs } : { stage: 'opening' };
  }, [views, books, gathering]);
}
