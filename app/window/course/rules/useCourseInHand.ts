import { useEffect, useState } from 'react';
import type { Course } from '../../../../src/course/course.ts';
import type { Board } from '../board/board.ts';
import { withGesture } from '../board/gesture.ts';

/** Milliseconds between two looks at a course that is being dragged: a few a second are read, more only cost. */
const betweenLooks = 300;

/**
 * The course as it would be were the hand lifted now, looked at a few times a second while something is dragged, and
 * at once when it is kept.
 */
export function useCourseInHand(board: Board, kept: Course): Course {
  const [dragged, setDragged] = useState<Course | null>(null);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = (): void => {
      timer = undefined;
      const now = withGesture(board.shown(), board.gesture());
      setDragged(now === board.desk.course() ? null : now);
    };
    const stop = board.onPaint(() => {
      timer ??= setTimeout(look, betweenLooks);
    });
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, [board]);
  return dragged ?? kept;
}
