import { useEffect, useState, type RefObject } from 'react';
import { defaultBudget } from '../../../src/frames/frameWindow.ts';
import { openFrameWindow, type FrameWindow } from '../../../src/frames/open.ts';
import type { ClipSummary } from '../../../src/host/contract/shapes.ts';
import { frameShownAt, framesOfCut } from '../../../src/review/cells.ts';
import type { RunBeside } from '../../../src/review/compare/sideBySide.ts';
import type { FootageUse } from '../../../src/review/document.ts';
import type { ClipClock } from '../../../src/time/bracket.ts';
import { frameIndex } from '../../../src/time/units.ts';
import { compareWords } from '../../../src/words/compare.ts';
import { whyOf } from '../stores/notices.ts';
import { useWorkbench } from '../stores/react.ts';
import { beginningOf } from './beginning.ts';
import type { Lockstep } from './lockstep.ts';

const words = compareWords.picture;

/** So long every lane leaves the cores to those that have no picture yet, milliseconds. */
const quiet = 600;

interface Wanted {
  readonly canvas: RefObject<HTMLCanvasElement | null>;
  readonly lockstep: Lockstep;
  readonly index: number;
  readonly count: number;
  readonly use: FootageUse | undefined;
  readonly clip: ClipSummary | undefined;
  readonly clock: ClipClock | undefined;
  readonly run: Pick<RunBeside, 'analysis'>;
}

/**
 * Keeps the exact frames of a clip in the lock. They are decoded onto a canvas that nobody sees, and brought to the one
 * on the screen when the lock says so.
 * @returns null while there is a picture, else why there is none
 */
export function useLanePicture({
  canvas,
  lockstep,
  index,
  count,
  use,
  clip,
  clock,
  run,
}: Wanted): string | null {
  const { shell } = useWorkbench();
  const [stand, setStand] = useState<{ readonly why: string | null }>({ why: words.opening });
  // Where it began when it was opened: marks that are moved meanwhile do not open the clip again.
  const [span] = useState(() => beginningOf(run));
  const mediaId = clip?.state === 'missing' || clip?.state === 'needsCopy' ? null : (clip?.mediaId ?? null);
  const { width, height } = clip?.shown ?? { width: 0, height: 0 };
  const rotation = clip?.rotation ?? 0;
  const copied = Boolean(clip?.copy);
  const cut = use?.cut;
  const [from, to] = [cut?.from ?? null, cut?.to ?? null];

  useEffect(() => {
    const seen = canvas.current;
    if (!seen || !clock || mediaId === null) return;
    let gone = false;
    let frames: FrameWindow | null = null;
    const ready = document.createElement('canvas');
    const surface = seen.getContext('2d', { alpha: false });
    setStand({ why: words.opening });
    const source = { url: shell.mediaUrl(mediaId), table: clock.table, width, height, rotation };
    openFrameWindow(source, ready, {
      by: copied ? 'either' : 'decoding',
      budget: defaultBudget / count,
      quiet,
      ...(span && {
        keysIn: { from: frameShownAt(clock, span.from), to: frameShownAt(clock, span.to) },
      }),
    }).then(
      (opened) => {
        if (gone) {
          void opened.close();
          return;
        }
        frames = opened;
        setStand({ why: null });
        lockstep.setPicture(index, {
          clock,
          ...framesOfCut(clock, from === null || to === null ? undefined : { from, to }),
          keys: opened.keys,
          ready: (frame) => opened.seek(frameIndex(frame)),
          show() {
            if (seen.width !== ready.width) seen.width = ready.width;
            if (seen.height !== ready.height) seen.height = ready.height;
            surface?.drawImage(ready, 0, 0);
          },
        });
      },
      (error: unknown) => {
        if (gone) return;
        setStand({ why: error instanceof Error && 'code' in error ? error.message : whyOf(error).why });
      },
    );
    return () => {
      gone = true;
      lockstep.setPicture(index, null);
      void frames?.close();
    };
  }, [
    canvas,
    lockstep,
    index,
    count,
    clock,
    mediaId,
    width,
    height,
    rotation,
    copied,
    from,
    to,
    span,
    shell,
  ]);

  if (!use) return words.none;
  if (clip?.state === 'missing' || !clip) return words.missing(use.name);
  if (clip.state === 'needsCopy') return words.needsCopy(use.name);
  return stand.why;
}
