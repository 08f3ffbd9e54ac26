import { useEffect, useMemo, useRef } from 'react';
import { flightsOf } from '../../../../src/track/flights.ts';
import { runLines } from '../../../../src/track/runLines.ts';
import { useBuilt } from '../../stores/bookOf.ts';
import { useAnalysis, useClips, useReview } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview, useTrack } from '../DeskContext.ts';
import { fitHoldingMost, workedFits } from './groundFit.ts';
import { viewOf } from './linesStore.ts';

/** A line is worked out anew once the hand rests this long, so that no click is kept waiting. Milliseconds. */
const restFor = 120;

/** Keeps the lines of the clip on the desk in step with marks, fits, course and clocks. */
export function useFollowLines(): void {
  const { lines } = useDesk();
  const { course, tracks, fits, footage } = useOpenReview();
  const built = useBuilt(course);
  const clips = useClips();
  const clocks = useReview((v) => v.clocks);
  const analysis = useAnalysis();
  const footageId = useDeskView((v) => v.footageId);
  const dogPoint = useTrack((v) => v.dogPoint);
  const handlerPoint = useTrack((v) => v.handlerPoint);
  const use = footage.find((f) => f.id === footageId);
  const clip = use && clips.get(use.clipId);
  const clock = use && clocks.get(use.id);
  const id = use?.id;
  const [width, height] = [clip?.width, clip?.height];
  const size = useMemo(
    () => (width === undefined || height === undefined ? null : { width, height }),
    [width, height],
  );

  // Worked out anew only where fits, course or picture are others: lines that share a fit share its error.
  const worked = useMemo(
    () => (id === undefined || !size ? [] : workedFits(fits, built, size, id)),
    [fits, built, size, id],
  );
  const ground = useMemo(() => {
    const marked = tracks.filter((t) => t.footageId === id).flatMap((t) => t.marks.map((m) => m.pts));
    return fitHoldingMost(worked, marked);
  }, [worked, tracks, id]);
  const taken = analysis?.taken;
  const flights = useMemo(() => flightsOf(taken ?? []), [taken]);

  const first = useRef(true);
  useEffect(() => {
    const work = (): void => {
      const its =
        ground && clock && use
          ? runLines({
              tracks,
              footageId: use.id,
              points: { dog: dogPoint, handler: handlerPoint },
              clock,
              cut: use.cut,
              view: ground.view,
              holds: ground.holds,
              flights,
            })
          : { dog: null, handler: null };
      lines.setState(
        viewOf({ footageId: clock ? (use?.id ?? null) : null, course: built, ground, flights, lines: its }),
        true,
      );
    };
    const timer = setTimeout(work, first.current ? 0 : restFor);
    first.current = false;
    return () => {
      clearTimeout(timer);
    };
  }, [lines, tracks, use, clock, ground, flights, built, dogPoint, handlerPoint]);
}
