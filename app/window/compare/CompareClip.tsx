import { useMemo, useState } from 'react';
import { stretchClip } from '../../../src/report/clip/ideas.ts';
import { frameShownAt, framesOfCut } from '../../../src/review/cells.ts';
import { ptsOf } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { ClipDialog } from '../clip/ClipDialog.tsx';
import { subjectOf, type Subject } from '../clip/choices.ts';
import { useActs } from '../keys/useActs.ts';
import { laneUse } from './laneUse.ts';
import type { Lockstep, LockView } from './lockstep.ts';
import type { ComparedRun } from './useRuns.ts';

interface CompareClipProps {
  readonly runs: readonly ComparedRun[];
  readonly lockstep: Lockstep;
  /** How often other clips of the runs were asked for. */
  readonly turn: number;
}

/** Makes a clip of two runs side by side, held together as they are on the screen. */
export function CompareClip({ runs, lockstep, turn }: CompareClipProps) {
  const [opened, setOpened] = useState<LockView | null>(null);
  const subjects = useMemo(() => (opened ? subjectsOf(runs, opened, turn) : []), [runs, opened, turn]);
  useActs({
    'clip.compare': () => {
      lockstep.pause();
      setOpened(lockstep.store.getState());
    },
  });
  if (!opened || subjects.length === 0) return null;
  const lead = runs[opened.leader];
  return (
    <ClipDialog
      open
      onClose={() => {
        setOpened(null);
      }}
      subjects={subjects}
      first={0}
      tableOf={(id) => lead?.clocks.get(id)?.table}
      fitted={runs.some(({ state }) => state.fits.length > 0)}
    />
  );
}

/** Run seconds about the moment on the screen that a clip begins with. */
const around = 1.5;

function subjectsOf(runs: readonly ComparedRun[], view: LockView, turn: number): readonly Subject[] {
  const lead = runs[view.leader];
  const other = runs.find((_, i) => i !== view.leader && view.lanes[i] !== null);
  const [use, otherUse] = [lead && laneUse(lead, turn).use, other && laneUse(other, turn).use];
  const clock = use && lead?.clocks.get(use.id);
  if (!lead || !other || !use || !otherUse || !clock) return [];
  const beside = { reviewId: other.id, footageId: otherUse.id, lock: view.lock };
  const { first, last } = framesOfCut(clock, use.cut);
  const at = (time: number): number =>
    ptsOf(clock.table, frameIndex(Math.max(first, Math.min(last, frameShownAt(clock, time)))));
  const here: Subject = {
    id: 'beside',
    reviewId: lead.id,
    footageId: use.id,
    parts: [{ from: at(view.at - around), to: at(view.at + around) }],
    slow: [],
    freezes: [{ pts: at(view.at), seconds: 0, caption: '' }],
    beside,
    label: clipWords.dialog.idea.beside,
    kind: 'beside',
    table: clock.table,
  };
  const { analysis, state: review, clocks } = lead;
  const stretches = analysis.splits.flatMap((split): Subject[] => {
    const idea = stretchClip({ review, analysis, clocks }, split);
    return idea?.footageId === use.id ? [{ ...subjectOf(lead.id, idea), beside }] : [];
  });
  return [here, ...stretches];
}
