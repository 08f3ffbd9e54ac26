import { useEffect, useMemo, useState } from 'react';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { likelyLine } from '../../../../src/line/likelyLine.ts';
import { lineShapes } from '../../../../src/line/lineShapes.ts';
import { runnerWith } from '../../../../src/line/runner.ts';
import { wantedLine } from '../../../../src/line/wantedLine.ts';
import { wishOf } from '../../../../src/plan/lineWish.ts';
import { useDogOf } from '../../stores/dogOf.ts';
import { usePreferences } from '../../stores/react.ts';
import { useLines, useOpenReview } from '../DeskContext.ts';

/** Lines that were expected, as points of the ground. */
export interface ExpectedLines {
  /** The line that the coach drew; null where she drew none. */
  readonly wanted: readonly GroundPoint[] | null;
  /** The likely line in its pieces; empty while it is not shown. */
  readonly likely: readonly (readonly GroundPoint[])[];
}

/** The coach's wanted line of the plan in use; null where she drew none. */
export function useWantedLine(): readonly GroundPoint[] | null {
  const { plan } = useOpenReview();
  const { wantedLine: drawn } = plan;
  return useMemo(() => (drawn ? wantedLine(drawn.nodes, drawn.tension) : null), [drawn]);
}

/** What was expected of this dog on this course. The likely line is worked out only where it is shown. */
export function useExpectedLines(): ExpectedLines {
  const review = useOpenReview();
  const { dog } = useDogOf(review);
  const built = useLines((v) => v.course);
  const shown = usePreferences((p) => p.realLine.likely);
  const { wait, landings } = review.plan;
  const [likely, setLikely] = useState<ExpectedLines['likely']>([]);
  useEffect(() => {
    if (!shown || !built) {
      setLikely([]);
      return;
    }
    const timer = setTimeout(() => {
      const wish = wishOf({ wait, landings }, runnerWith(dog?.runner));
      const line = likelyLine(built, wish);
      setLikely(line ? lineShapes(line).flatMap((s) => (s.shape === 'way' ? [s.points] : [])) : []);
    });
    return () => {
      clearTimeout(timer);
    };
  }, [shown, built, wait, landings, dog]);
  const wanted = useWantedLine();
  return { wanted, likely };
}
