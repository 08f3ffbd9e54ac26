import { useEffect, useMemo, useRef, useState } from 'react';
import type { LikelyLine } from '../../../../src/line/line.ts';
import type { PlanTimes } from '../../../../src/plan/spare.ts';
import { walkThrough, type WalkThrough } from '../../../../src/plan/walkThrough.ts';

/** A plan being played. */
export interface Walk {
  readonly through: WalkThrough | null;
  /** Seconds from her first movement; null before anybody played it. */
  readonly at: number | null;
  readonly playing: boolean;
  readonly slow: boolean;
  readonly now: { readonly through: WalkThrough; readonly at: number } | null;
  readonly toggle: (() => void) | undefined;
  seek(at: number): void;
  setSlow(slow: boolean): void;
}

/** Plays dog and handler along a plan in real time, or half as fast. */
export function useWalk(line: LikelyLine | null, times: PlanTimes | null): Walk {
  const through = useMemo(() => (line && times ? walkThrough(line, times) : null), [line, times]);
  const [at, setAt] = useState<number | null>(null);
  const [playing, setPlaying] = useState(false);
  const [slow, setSlow] = useState(false);
  const end = through?.seconds ?? 0;
  const shown = useRef(at);
  shown.current = at;

  useEffect(() => {
    if (!playing) return;
    let last = performance.now();
    let id = requestAnimationFrame(function step(time) {
      const next = (shown.current ?? 0) + ((time - last) / 1000) * (slow ? 0.5 : 1);
      last = time;
      setAt(Math.min(end, next));
      if (next >= end) setPlaying(false);
      else id = requestAnimationFrame(step);
    });
    return () => {
      cancelAnimationFrame(id);
    };
  }, [playing, slow, end]);

  return {
    through,
    at,
    playing,
    slow,
    now: through && at !== null ? { through, at: Math.min(at, end) } : null,
    toggle: through
      ? () => {
          if (!playing && (at ?? 0) >= end) setAt(0);
          setPlaying(!playing);
        }
      : undefined,
    seek(to) {
      setPlaying(false);
      setAt(to);
    },
    setSlow,
  };
}
