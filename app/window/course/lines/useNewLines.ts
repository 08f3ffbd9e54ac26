import { useEffect, useState } from 'react';
import { createLineSession } from '../../../../src/line/likely/session.ts';
import { lineRange } from '../../../../src/line/likelyLine.ts';
import { runnerWith } from '../../../../src/line/runner.ts';
import { useReview, useWorkbench } from '../../stores/react.ts';
import type { Board } from '../board/board.ts';
import { createLinesDesk, type LinesOf } from './linesDesk.ts';
import type { Lines } from './LinesContext.ts';

/** The lines over the open course. They live as long as the screen. */
export function useNewLines(board: Board): Lines {
  const { review } = useWorkbench();
  const state = useReview((view) => view.state);
  if (!state) throw new Error('The Course screen was drawn without an open review.');
  const [lines] = useState(() => {
    const session = createLineSession();
    const of: LinesOf = { runner: runnerWith(), skills: undefined };
    const desk = createLinesDesk(
      board,
      { line: session.line, range: lineRange },
      () => (review.getState().state ?? state).plan,
      () => of,
    );
    return { desk, of: () => of };
  });
  const { desk } = lines;
  // Course and plan may have changed by any way: undo, another window, another page.
  useEffect(() => {
    desk.ask();
  }, [desk, state]);
  return lines;
}
