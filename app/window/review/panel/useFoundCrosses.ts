import { useMemo } from 'react';
import { middle } from '../../../../src/time/bracket.ts';
import { crossesFound, type CrossFound } from '../../../../src/track/crossesFound.ts';
import { pathsCrossed } from '../../../../src/track/pairs.ts';
import { pairOf } from '../../../../src/track/runLines.ts';
import { clockReading } from '../../../../src/words/figures.ts';
import { crossFoundWords as words } from '../../../../src/words/aroundCross.ts';
import { useAnalysis } from '../../stores/react.ts';
import { useDesk, useLines, useOpenReview } from '../DeskContext.ts';
import { takeFound, takenTimes } from '../track/foundCrosses.ts';

/** Crosses that the two marked paths show, in the order of the run. */
export function useFoundCrosses(): readonly CrossFound[] {
  const { plan } = useOpenReview();
  const analysis = useAnalysis();
  const lines = useLines((v) => v.lines);
  const pair = useMemo(() => pairOf(lines), [lines]);
  return useMemo(
    () =>
      pair && analysis ? crossesFound(pair, pathsCrossed(pair), takenTimes(analysis), plan.crosses) : [],
    [pair, analysis, plan.crosses],
  );
}

/** Takes a found cross over; said where nothing is left to take. */
export function useTakeFound(): (found: CrossFound, markedId: string | null) => void {
  const { desk } = useDesk();
  const footageId = useLines((v) => v.footageId);
  return (found, markedId) => {
    const review = desk.ports.review();
    // On the clip at hand where that shows it.
    const clips = [...desk.ports.clocks()]
      .map(([of, clock]) => ({ footageId: of, clock }))
      .sort((a, b) => Number(b.footageId === footageId) - Number(a.footageId === footageId));
    const act = review && takeFound(review, found, markedId, clips, desk.ports.makeId);
    if (act) desk.do(act);
    else desk.say(words.nothing);
  };
}

/** How a time of the run reads on its clock. */
export function useRunReading(): (at: number) => string {
  const analysis = useAnalysis();
  const start = analysis?.clock ? middle(analysis.clock.start.bracket) : 0;
  return (at) => clockReading(at - start);
}
