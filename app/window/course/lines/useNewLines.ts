import { useEffect, useState } from 'react';
import { createLineSession } from '../../../../src/line/likely/session.ts';
import type { Dog } from '../../../../src/line/dog.ts';
import { createRangeSession } from '../../../../src/line/likelyLine.ts';
import { runnerWith } from '../../../../src/line/runner.ts';
import { dogIn, useDogOf } from '../../stores/dogOf.ts';
import { useReview, useWorkbench } from '../../stores/react.ts';
import type { Board } from '../board/board.ts';
import { createLinesDesk, type LinesOf } from './linesDesk.ts';
import type { Lines } from './LinesContext.ts';

/** By dog, so that the same dog is the same runner. */
const known = new WeakMap<Dog, LinesOf>();
const assumed: LinesOf = { runner: runnerWith(), skills: undefined };

/** What the lines go by: the dog of the review where the library has her, else as assumed. */
function linesOf(dog: Dog | null | undefined): LinesOf {
  if (!dog) return assumed;
  const there = known.get(dog);
  if (there) return there;
  const made = { runner: runnerWith(dog.runner), skills: dog.skills };
  known.set(dog, made);
  return made;
}

/** The lines over the open course. They live as long as the screen. */
export function useNewLines(board: Board): Lines {
  const { review, dogs } = useWorkbench();
  const state = useReview((view) => view.state);
  if (!state) throw new Error('The Course screen was drawn without an open review.');
  const [lines] = useState(() => {
    const session = createLineSession();
    const now = () => review.getState().state ?? state;
    const of = () => linesOf(dogIn(dogs.getState().dogs, now().header.dog)?.dog);
    const desk = createLinesDesk(
      board,
      { line: session.line, range: createRangeSession(session) },
      () => now().plan,
      of,
    );
    return { desk, of };
  });
  const { desk } = lines;
  const { dog } = useDogOf(state);
  // Course, plan and dog may have changed by any way: undo, another window, another page.
  useEffect(() => {
    desk.ask();
  }, [desk, state, dog]);
  return lines;
}
