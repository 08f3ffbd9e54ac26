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
    let gone = false;
    const measure = async (): Promise<void> => {
      const lines: (MeasuredLine | null)[] = [];
      for (const [i, { state, clocks, analysis, built }] of runs.entries()) {
        // A long line takes a moment: what is there already is painted first, and hands are heard between two runs.
        await painted();
        if (gone) return;
        const pictures = new Map(
          state.footage.flatMap((use) => {
            const clip = clips.get(use.clipId);
            return clip ? [[use.id, { width: clip.width, height: clip.height }] as const] : [];
          }),
        );
        lines.push(measuredLine(state, clocks, analysis, { course: built, pictures, seed: i + 1 }));
      }
      setFound({ of: runs, lines });
    };
    void measure();
    return () => {
      gone = true;
    };
  }, [runs, clips, begin]);
  return found?.of.length === runs.length ? found.lines : null;
}

/** Once the screen was drawn and there is time; a hidden page draws none, so a clock stands in. */
const painted = (): Promise<void> =>
  new Promise((resolve) => {
    const timer = setTimeout(done, 300);
    const frame = requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)));
    function done(): void {
      clearTimeout(timer);
      cancelAnimationFrame(frame);
      resolve();
    }
  });
