import { useEffect, useState } from 'react';
import type { CrossAnalysis } from '../../../src/review/analysis.ts';
import { useAnalysis } from '../stores/react.ts';
import { wholePicture, type Part } from './closeUp.ts';
import { useDesk, useDeskView, useOpenReview } from './DeskContext.ts';
import type { ShownMoment } from './panel/momentsOf.ts';

/** The cross that is looked at: the one being marked, else that of the chosen mark, else the first. */
export function useCrossLookedAt(): CrossAnalysis | null {
  const crosses = useAnalysis()?.crosses ?? [];
  const { marks } = useOpenReview();
  const marking = useDeskView((v) => ('open' in v.mode ? v.mode.open.cross.id : null));
  const selected = useDeskView((v) => v.selected);
  const chosen = marks.find((m) => m.id === selected);
  const id = marking ?? (chosen?.kind === 'cross' ? chosen.crossId : null);
  if (id !== null) return crosses.find((c) => c.id === id) ?? null;
  const place = chosen && 'place' in chosen ? chosen.place : undefined;
  return crosses.find((c) => c.place === place) ?? crosses[0] ?? null;
}

/** The part of the picture in which these moments happen; the whole of it until that is known. */
export function useMovingPart(moments: readonly ShownMoment[]): Part {
  const { stills } = useDesk();
  const stage = useStageCount();
  const frames = moments.map(({ moment }) => `${moment.frame} ${moment.footageId}`).join('\n');
  const [part, setPart] = useState<Part>(wholePicture);
  useEffect(() => {
    let gone = false;
    const list = frames.split('\n').flatMap((line) => {
      const frame = Number.parseInt(line, 10);
      return Number.isNaN(frame) ? [] : [{ footageId: line.slice(line.indexOf(' ') + 1), frame }];
    });
    stills.movingPart(list).then(
      (found) => {
        if (!gone) setPart(found ?? wholePicture);
      },
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, [stills, stage, frames]);
  return part;
}

/** Counts the clips that came on the stage, so that pictures are asked for again. */
export function useStageCount(): number {
  const { stills } = useDesk();
  const [count, setCount] = useState(0);
  useEffect(
    () =>
      stills.onMaker(() => {
        setCount((n) => n + 1);
      }),
    [stills],
  );
  return count;
}
