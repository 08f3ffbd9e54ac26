import { useMemo } from 'react';
import { useAnalysis, useReview } from '../stores/react.ts';
import type { Workbench } from '../stores/workbench.ts';
import { useDeskView, useOpenReview } from './DeskContext.ts';
import { lineContent, markedSpan, type LineContent } from './line/content.ts';
import type { Span } from './line/scale.ts';

const nothing: LineContent = {
  whole: { from: 0, to: 1 },
  clips: [],
  posts: [],
  stretches: [],
  events: [],
  crosses: [],
  starts: [],
};

/** What stands on the line of time now. */
export function useLineContent(): LineContent {
  const review = useOpenReview();
  const analysis = useAnalysis();
  const clocks = useReview((v) => v.clocks);
  const beyond = useDeskView((v) => v.beyond);
  return useMemo(
    () => (analysis ? lineContent(review, analysis, clocks, beyond) : nothing),
    [review, analysis, clocks, beyond],
  );
}

/** The part of the run that has marks on it; null before there are any. */
export function markedSpanOf({ review }: Workbench): Span | null {
  const { state, clocks } = review.getState();
  const analysis = review.analysis();
  return state && analysis ? markedSpan(lineContent(state, analysis, clocks)) : null;
}
