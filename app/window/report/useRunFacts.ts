import { useEffect, useState } from 'react';
import { noFacts, runFacts, type RunFacts } from '../../../src/report/runFacts.ts';
import type { Analysis } from '../../../src/review/analysis.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import { useBookOf } from '../stores/bookOf.ts';
import { useClips, usePreferences, useReview } from '../stores/react.ts';

/** Score and measured line of the open review; as long as they are worked out, none. */
export function useRunFacts(state: ReviewState | null, analysis: Analysis | null): RunFacts {
  const clocks = useReview((view) => view.clocks);
  const clips = useClips();
  const stepCounts = usePreferences((p) => p.realLine.stepCounts);
  const { book } = useBookOf(state?.course ?? noCourse);
  const [facts, setFacts] = useState(noFacts);
  useEffect(() => {
    if (!state || !analysis) {
      setFacts(noFacts);
      return;
    }
    // A long line takes a moment: the page is drawn first.
    const timer = setTimeout(() => {
      const pictures = new Map(
        state.footage.flatMap((use) => {
          const clip = clips.get(use.clipId);
          return clip ? [[use.id, { width: clip.width, height: clip.height }] as const] : [];
        }),
      );
      setFacts(runFacts(state, analysis, { clocks, book, pictures, stepCounts }));
    }, 200);
    return () => {
      clearTimeout(timer);
    };
  }, [state, analysis, clocks, clips, book, stepCounts]);
  return facts;
}

const noCourse = { name: '', obstacles: [], steps: [] };
