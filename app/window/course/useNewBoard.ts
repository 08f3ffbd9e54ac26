import { useState } from 'react';
import { builtBy } from '../../../src/course/builtBy.ts';
import type { Course } from '../../../src/course/course.ts';
import { obstacleAt } from '../../../src/course/course.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import { obstacleName } from '../../../src/words/review.ts';
import { obstacleWords } from '../../../src/words/trade.ts';
import { useReview, useWorkbench } from '../stores/react.ts';
import { ruleBookIn } from '../stores/ruleBooks.ts';
import { createBoard, type Board } from './board/board.ts';
import { lastPlace } from './edit.ts';

/** The drawing board over the open review. It lives as long as the screen. */
export function useNewBoard(): Board {
  const { review, preferences, ruleBooks } = useWorkbench();
  const first = useReview((view) => view.state);
  if (!first) throw new Error('The Course screen was drawn without an open review.');
  const [board] = useState(() => {
    const now = (): ReviewState => review.getState().state ?? first;
    const dialect = (): 'british' | 'american' => preferences.getState().dialect;
    return createBoard(
      {
        course: () => now().course,
        built: (course) => builtBy(course, ruleBookIn(ruleBooks.getState(), course.ruleBook).book),
        changeCourse(label, change) {
          const { id, course } = now();
          const body = change(course);
          if (body !== course) void review.apply(label, [{ kind: 'course', id, body }]);
        },
        lastKept: () => lastPlace(now()),
        unit: () => now().course.unit ?? preferences.getState().lengths,
        nameOf: (course, id) => pieceName(course, id, dialect()),
        kindName: (kind) => obstacleWords[dialect()][kind],
        newId: () => crypto.randomUUID(),
      },
      // A traced piece stands where it is clicked, not on the grid.
      first.course.underlay && preferences.getState().boardGrid === 'snap'
        ? 'shown'
        : preferences.getState().boardGrid,
    );
  });
  return board;
}

/** What a piece is called: "4, the gate", or its kind where it has neither number nor name. */
export function pieceName(course: Course, id: string, dialect: 'british' | 'american'): string {
  const obstacle = course.obstacles.find((o) => o.id === id);
  const step = course.steps.find((s) => s.obstacleId === id);
  const name = obstacleName(step ? obstacleAt(course, step.number) : obstacle, dialect);
  const plain = name === '' ? obstacleWords[dialect].unknown : name;
  return step ? `${step.number}, ${plain}` : plain;
}
