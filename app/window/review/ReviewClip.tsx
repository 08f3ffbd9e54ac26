import { useMemo, useState } from 'react';
import { clipIdeas } from '../../../src/report/clip/ideas.ts';
import { withAngles } from '../../../src/review/angles.ts';
import { frameShownAt, framesOfCut, type Span } from '../../../src/review/cells.ts';
import type { Cut } from '../../../src/review/document.ts';
import { runTimeAt, type ClipClock } from '../../../src/time/bracket.ts';
import { ptsOf } from '../../../src/time/frameTable.ts';
import { frameIndex } from '../../../src/time/units.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { ClipDialog } from '../clip/ClipDialog.tsx';
import { subjectOf, type Subject } from '../clip/choices.ts';
import { useActs } from '../keys/useActs.ts';
import { useAnalysis, useReview } from '../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from './DeskContext.ts';

/** Makes clips of the open review: of what its marks suggest, or from one frame to another. */
export function ReviewClip() {
  const { desk } = useDesk();
  const [open, setOpen] = useState(false);
  const footageId = useDeskView((v) => v.footageId);
  const clocks = useReview((v) => v.clocks);
  const clock = footageId === null ? undefined : clocks.get(footageId);
  useActs({
    'clip.review': clock
      ? () => {
          desk.pause();
          setOpen(true);
        }
      : undefined,
  });
  const close = (): void => {
    setOpen(false);
  };
  return open && clock && footageId !== null ? (
    <Opened footageId={footageId} clock={clock} onClose={close} />
  ) : null;
}

interface OpenedProps {
  readonly footageId: string;
  readonly clock: ClipClock;
  readonly onClose: () => void;
}

function Opened({ footageId, clock, onClose }: OpenedProps) {
  const { desk } = useDesk();
  const review = useOpenReview();
  const analysis = useAnalysis();
  const clocks = useReview((v) => v.clocks);
  const { frame, loop, selected } = desk.store.getState();
  const subjects = useMemo(() => {
    const all = withAngles(clocks, review.footage);
    const ideas = analysis ? clipIdeas({ review, analysis, clocks: all }) : [];
    const cut = review.footage.find((f) => f.id === footageId)?.cut;
    const range = rangeAbout(clock, cut, frame, loop);
    return [
      ...ideas.map((idea) => subjectOf(review.id, idea)),
      { ...range, id: 'range', reviewId: review.id, footageId },
    ];
  }, [review, analysis, clocks, clock, footageId, frame, loop]);
  const mark = review.marks.find((m) => m.id === selected);
  const wanted = loop ? 'range' : mark?.kind === 'cross' ? `cross ${mark.crossId}` : 'short';
  return (
    <ClipDialog
      open
      onClose={onClose}
      subjects={subjects}
      first={Math.max(
        0,
        subjects.findIndex((s) => s.id === wanted),
      )}
      tableOf={(id) => clocks.get(id)?.table}
      fitted={review.fits.length > 0}
    />
  );
}

/** Run seconds about the frame on the screen that a range begins with. */
const around = 1.5;

/** The stretch that is played round and round, else a little about the frame on the screen, which can be held. */
function rangeAbout(
  clock: ClipClock,
  cut: Cut | undefined,
  frame: number,
  loop: Span | null,
): Omit<Subject, 'id' | 'reviewId' | 'footageId'> {
  const { first, last } = framesOfCut(clock, cut);
  const at = (f: number): number => ptsOf(clock.table, frameIndex(Math.max(first, Math.min(last, f))));
  const now = runTimeAt(clock, ptsOf(clock.table, frameIndex(frame)));
  const span = loop ?? { from: now - around, to: now + around };
  return {
    parts: [{ from: at(frameShownAt(clock, span.from)), to: at(frameShownAt(clock, span.to)) }],
    slow: [],
    freezes: [{ pts: at(frame), seconds: 0, caption: '' }],
    label: clipWords.dialog.idea.range,
    kind: 'range',
    table: clock.table,
  };
}
