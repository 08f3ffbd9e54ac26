import { useMemo } from 'react';
import {
  captureFindings,
  speaksForSlow,
  type CaptureFinding,
} from '../../../../src/review/captureFindings.ts';
import type { FootageUse } from '../../../../src/review/document.ts';
import type { ClipClock } from '../../../../src/time/bracket.ts';
import { useClips, useReview } from '../../stores/react.ts';
import { useDeskView, useOpenReview } from '../DeskContext.ts';

/** The clip on the desk as the review uses it, and its clock; null until both are there. */
export interface ClipOnDesk {
  readonly use: FootageUse;
  readonly clock: ClipClock;
}

export function useClipOnDesk(): ClipOnDesk | null {
  const { footage } = useOpenReview();
  const footageId = useDeskView((v) => v.footageId);
  const clocks = useReview((v) => v.clocks);
  const use = footage.find((f) => f.id === footageId);
  const clock = use && clocks.get(use.id);
  return use && clock ? { use, clock } : null;
}

/** What the file and its frames say of the speed at which the clip on the desk was filmed. */
export function useCaptureFindings(): readonly CaptureFinding[] {
  const here = useClipOnDesk();
  const clip = useClips().get(here?.use.clipId ?? '');
  const table = here?.clock.table;
  return useMemo(
    () =>
      // Where nobody could look at the file, only the frames speak; whether there is sound is not known.
      table
        ? captureFindings(clip?.capture ?? [], table, clip?.capture === undefined || clip.sound !== null)
        : [],
    [clip, table],
  );
}

/** How many times slower the most telling finding makes the clip; null where none does. */
export function timesFound(findings: readonly CaptureFinding[]): number | null {
  const speeds = findings.find(speaksForSlow)?.speed?.map((p) => p.speed) ?? [];
  const slowest = Math.min(...speeds);
  return slowest < 1 ? 1 / slowest : null;
}
