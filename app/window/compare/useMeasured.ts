import { useEffect, useState } from 'react';
import { measuredLine, type MeasuredLine } from '../../../src/review/compare/measuredLine.ts';
import { useClips } from '../stores/react.ts';
import type { ComparedRun } from './useRuns.ts';

/** The measured lines of the runs, null for a run without one; null as a whole while they are worked out. @param begin false while pictures are still waited for */
export function useMeasured(
  runs: readonly ComparedRun[],
  begin: boolean,
): readonly (MeasuredLine | null)[] | null {
  const clips = useClips();
  const [found, setFound] = useState<{
    readonly of: readonly ComparedRun[];
    readonly lines: readonly (MeasuredLine | null)[];
  } | null>(null);
  useEffect(() => {
    if (!begin) return;
    // After the pictures have been asked for: a long line takes a moment.
    const timer = setTimeout(() => {
      const lines = runs.map(({ state, clocks, analysis, built }, i) => {
        const pictures = new Map(
          state.footage.flatMap((use) => {
            const clip = clips.get(use.clipId);
            return clip ? [[use.id, { width: clip.width, height: clip.height }] as const] : [];
          }),
        );
        return measuredLine(state, clocks, analysis, { course: built, pictures, seed: i + 1 });
      });
      setFound({ of: runs, lines });
    });
    return () => {
      clearTimeout(timer);
    };
  }, [runs, clips, begin]);
  return found?.of.length === runs.length ? found.lines : null;
}
