import { useEffect, useMemo, useRef } from 'react';
import { flightsOf } from '../../../../src/track/flights.ts';
import { fitHoldingMost, groundFits } from '../../../../src/track/groundFits.ts';
import { runLines, type LinePart } from '../../../../src/track/runLines.ts';
import { useBuilt } from '../../stores/bookOf.ts';
import { useAnalysis, useClips, useReview } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview, useTrack } from '../DeskContext.ts';
import { viewOf } from './linesStore.ts';

/** A line is worked out anew once the hand rests this long, so that no click is kept waiting. Milliseconds. */
const restFor = 120;

/** Keeps the lines of the run, and the ground of the clip on the desk, in step with marks, fits, course and clocks. */
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
  const clock = use && clocks.get(use.id);
  const id = use?.id;
  // Clips by the size of their upright picture; the text stays the same as long as they do.
  const shown = JSON.stringify(
    footage.flatMap((f) => {
      const clip = clips.get(f.clipId);
      return clip?.width && clip.height ? [[f.id, clip.width, clip.height]] : [];
    }),
  );

  // Worked out anew only where fits, course or pictures are others: lines that share a fit share its error.
  const worked = useMemo(
    () =>
      (JSON.parse(shown) as [string, number, number][]).flatMap(([one, width, height]) =>
        groundFits(fits, built, { width, height }, one),
      ),
    [fits, built, shown],
  );
  const ground = useMemo(() => {
    const marked = tracks.filter((t) => t.footageId === id).flatMap((t) => t.marks.map((m) => m.pts));
    return fitHoldingMost(
      worked.filter((w) => w.footageId === id),
      marked,
    );
  }, [worked, tracks, id]);
  const parts = useMemo(
    () =>
      worked.flatMap(({ footageId: of, view, holds }): LinePart[] => {
        const its = clocks.get(of);
        // A camera through which nothing is marked would only add what is not known of it.
        const marked = tracks.some((t) => t.footageId === of && t.marks.some((m) => holds(m.pts)));
        const cut = footage.find((f) => f.id === of)?.cut;
        return its && marked ? [{ footageId: of, clock: its, cut, view, holds }] : [];
      }),
    [worked, clocks, tracks, footage],
  );
  const taken = analysis?.taken;
  const flights = useMemo(() => flightsOf(taken ?? []), [taken]);

  const first = useRef(true);
  useEffect(() => {
    const work = (): void => {
      const its =
        clock && id !== undefined
          ? runLines({
              tracks,
              footageId: id,
              points: { dog: dogPoint, handler: handlerPoint },
              parts,
              taken: taken ?? [],
            })
          : { dog: null, handler: null };
      lines.setState(
        viewOf({ footageId: clock ? (id ?? null) : null, course: built, ground, flights, lines: its }),
        true,
      );
    };
    const timer = setTimeout(work, first.current ? 0 : restFor);
    first.current = false;
    return () => {
      clearTimeout(timer);
    };
  }, [lines, tracks, id, clock, ground, parts, taken, flights, built, dogPoint, handlerPoint]);
}
