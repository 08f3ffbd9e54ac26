import type { Obstacle, Step } from '../../../../src/course/course.ts';
import {
  likelyDirection,
  nextNumber,
  numbered,
  withoutNumber,
  withStep,
} from '../../../../src/course/drawing/numbering.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { centreOf } from '../../../../src/course/courseLength.ts';
import { distance } from '../../../../src/course/pose.ts';
import { lengthWords, drawingWords as words } from '../../../../src/words/drawing.ts';
import type { Board } from './board.ts';
import { choose, chosenPieces } from './choosing.ts';

/** Gives a piece the next number; a tunnel is entered at the mouth that was clicked. */
export function giveNumber(board: Board, obstacle: Obstacle, clicked?: GroundPoint): void {
  board.settle();
  const course = board.shown();
  const number = nextNumber(course);
  if (number === null) {
    board.say(words.tools.numberedOut);
    return;
  }
  const direction = likelyDirection(course, number, obstacle, clicked);
  board.act(words.labels.number(number), (c) => numbered(c, number, obstacle.id, direction));
  choose(board, [obstacle.id], number);
  const last = course.steps.find((s) => s.number === number - 1);
  const before = course.obstacles.find((o) => o.id === last?.obstacleId);
  const far =
    before?.stand && obstacle.stand
      ? lengthWords(
          distance(
            centreOf({ obstacle: before, stand: before.stand }),
            centreOf({ obstacle, stand: obstacle.stand }),
          ),
          board.desk.unit(),
        )
      : null;
  board.say(words.say.numbered(number, board.desk.kindName(obstacle.kind), far));
}

/** Gives the piece that was chosen last the next number. */
export function giveChosen(board: Board): void {
  const piece = chosenPieces(board).at(-1);
  if (piece) giveNumber(board, piece);
}

/** The step of the number in hand. */
export function stepInHand(board: Board): Step | undefined {
  const { place } = board.getState();
  return board.shown().steps.find((s) => s.number === place);
}

export function otherWay(board: Board): void {
  const step = stepInHand(board);
  if (!step) return;
  const direction = step.direction === 'forward' ? 'reverse' : 'forward';
  board.act(words.labels.step(step.number), (c) => withStep(c, step.number, { direction }));
}

export function toggleBackside(board: Board): void {
  const step = stepInHand(board);
  if (!step) return;
  const backside = step.backside === true ? undefined : true;
  board.act(words.labels.step(step.number), (c) => withStep(c, step.number, { backside }));
}

/** Left, right, none, and left again. */
export function nextWrap(board: Board): void {
  const step = stepInHand(board);
  if (!step) return;
  const wrap = step.wrap === undefined ? 'left' : step.wrap === 'left' ? 'right' : undefined;
  board.act(words.labels.step(step.number), (c) => withStep(c, step.number, { wrap }));
}

/** Takes the number in hand off its piece. */
export function takeOff(board: Board): void {
  const step = stepInHand(board);
  if (!step) return;
  const lastKept = board.desk.lastKept();
  const bare = board.desk.newId();
  board.act(words.labels.takeOff(step.number), (c) => withoutNumber(c, step.number, lastKept, bare));
  board.setState({ place: null });
  choose(board, board.getState().chosen);
  if (step.number <= lastKept) board.say(words.say.keptNumbers);
}
