import { mostObstacles, type Course, type Stand } from '../../../../src/course/course.ts';
import {
  bentBy,
  evenly,
  inARow,
  mirrored,
  movedBy,
  sameHeading,
  turnedBy,
} from '../../../../src/course/drawing/arrange.ts';
import { duplicated, withPiece, withoutPieces } from '../../../../src/course/drawing/pieces.ts';
import { gridOf, onGrid } from '../../../../src/course/grid.ts';
import type { ObstacleKind } from '../../../../src/course/kinds.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { wayThrough } from '../../../../src/course/planShapes.ts';
import { distance, from, headingTo } from '../../../../src/course/pose.ts';
import {
  lineMoved,
  lineOf,
  lineTurned,
  usualLine,
  withLine,
  type WhichLine,
} from '../../../../src/course/postLines.ts';
import { drawnSteps } from '../../../../src/course/sequence.ts';
import { rolledOn } from '../../../../src/course/wheel.ts';
import { lengthWords, drawingWords as words } from '../../../../src/words/drawing.ts';
import type { Board } from './board.ts';
import { choose, chosenPieces, nameOfChosen } from './choosing.ts';

const labels = words.labels;

/** The place a point takes on the board: on the grid where the grid holds things. */
export function placed(board: Board, p: GroundPoint): GroundPoint {
  return board.getState().grid === 'snap' ? onGrid(p, gridOf(board.desk.unit()).step) : p;
}

/** The piece a new one follows: what is chosen, else the last of the order, else the last put down. */
function before(board: Board): Stand | null {
  const course = board.shown();
  const [chosen] = chosenPieces(board, course).slice(-1);
  const last = chosen ?? drawnSteps(course).at(-1)?.obstacle ?? course.obstacles.findLast((o) => o.stand);
  return last?.stand ?? null;
}

/** How a new piece would stand at a place: looking on from the piece before it, to the next 15 degrees. */
export function newStand(board: Board, at: GroundPoint): Stand {
  const p = placed(board, at);
  const last = before(board);
  const heading = last && distance(last, p) > 0.5 ? Math.round(headingTo(last, p) / 15) * 15 : 0;
  return { x: p.x, y: p.y, headingDegrees: heading };
}

/** Metres from the piece before to a new one. */
export function fromLast(board: Board, at: GroundPoint): number | null {
  const last = before(board);
  return last ? distance(last, at) : null;
}

/** Puts a piece down at a place, or where the next one would stand: 6 m on from the one before. */
export function put(board: Board, kind: ObstacleKind, at?: GroundPoint): void {
  board.settle();
  const course = board.shown();
  if (course.obstacles.length >= mostObstacles) {
    board.say(words.say.full);
    return;
  }
  const stand = newStand(board, at ?? nextSpot(board, course));
  const far = fromLast(board, stand);
  const id = board.desk.newId();
  board.act(labels.put(board.desk.kindName(kind)), (c) => withPiece(c, { id, kind, stand }));
  choose(board, [id]);
  const length = far === null ? null : lengthWords(far, board.desk.unit());
  board.say(words.say.put(board.desk.kindName(kind), length));
}

/** Metres from one piece to the next where keys put it: within the distances of the trade (5 to 7 m). */
const stride = 6;

function nextSpot(board: Board, course: Course): GroundPoint {
  const ring = course.ring ?? { width: 40, length: 20 };
  const [last] = chosenPieces(board, course).slice(-1);
  const step = drawnSteps(course).findLast((s) => s.obstacle.id === last?.id);
  const stands = before(board);
  if (!stands) return { x: ring.width / 2, y: ring.length / 2 };
  const pose = step?.exit ?? (last?.stand ? wayThrough(last, last.stand, 'forward')[1] : stands);
  const inside = (p: GroundPoint): boolean =>
    p.x >= 1 && p.y >= 1 && p.x <= ring.width - 1 && p.y <= ring.length - 1;
  for (const turn of [0, 45, -45, 90, -90, 135, -135, 180]) {
    const p = from({ ...pose, headingDegrees: pose.headingDegrees + turn }, stride);
    if (inside(p)) return p;
  }
  return { x: ring.width / 2, y: ring.length / 2 };
}

/** Moves what is chosen (a line too) by steps of the grid; kept after a pause. */
export function nudge(board: Board, dx: number, dy: number): void {
  const { chosen, line, grid, tool } = board.getState();
  const { step } = gridOf(board.desk.unit());
  const by = grid === 'snap' ? step : step / 5;
  // What lies over the course stands on no grid.
  if (tool.name === 'choose' && board.nudgeGrip(dx * (step / 5), dy * (step / 5))) return;
  if (tool.name === 'wheel') {
    rollOn(board, dx * step, dy * step);
  } else if (line) {
    changeLine(board, line, labels.line(line), (l) => lineMoved(l, dx * by, dy * by));
  } else if (chosen.length > 0) {
    board.nudge(labels.move(nameOfChosen(board)), (c) => movedBy(c, chosen, dx * by, dy * by));
  } else {
    board.push(-dx * 40, dy * 40);
  }
}

function changeLine(
  board: Board,
  which: WhichLine,
  label: string,
  change: (line: NonNullable<ReturnType<typeof lineOf>>) => NonNullable<ReturnType<typeof lineOf>>,
): void {
  board.nudge(label, (c) => {
    const line = lineOf(c, which);
    return line ? withLine(c, which, change(line)) : c;
  });
}

function rollOn(board: Board, dx: number, dy: number): void {
  board.nudge(labels.wheel, (c) => {
    const start = before(board) ?? board.camera();
    const path = rolledOn(c.wheelPath ?? [{ x: start.x, y: start.y }], dx, dy);
    return path.length < 2 || path.length > 2000 ? c : { ...c, wheelPath: [...path] };
  });
}

/** Turns what is chosen, degrees counter-clockwise; kept after a pause. */
export function turn(board: Board, degrees: number): void {
  const { chosen, line } = board.getState();
  const label = labels.turn(nameOfChosen(board));
  if (line) changeLine(board, line, label, (l) => lineTurned(l, degrees));
  else if (chosen.length > 0) board.nudge(label, (c) => turnedBy(c, chosen, degrees));
}

export function bend(board: Board, degrees: number): void {
  const { chosen } = board.getState();
  if (!chosenPieces(board).some((o) => o.kind === 'tunnel')) board.say(words.say.bending);
  else board.nudge(labels.bend, (c) => bentBy(c, chosen, degrees));
}

export function mirror(board: Board): void {
  const { chosen } = board.getState();
  if (chosen.length > 0) board.act(labels.mirror(nameOfChosen(board)), (c) => mirrored(c, chosen));
}

export function align(board: Board, how: 'row' | 'heading' | 'evenly'): void {
  const { chosen } = board.getState();
  const least = how === 'evenly' ? 3 : 2;
  if (chosen.length < least) {
    board.say(least === 3 ? words.say.threeEven : words.say.oneLine);
    return;
  }
  const change = { row: inARow, heading: sameHeading, evenly }[how];
  board.act(labels[how], (c) => change(c, chosen));
}

export function duplicate(board: Board): void {
  const pieces = chosenPieces(board);
  if (pieces.length === 0) return;
  const ids = pieces.map(() => board.desk.newId());
  const aside = 2 * gridOf(board.desk.unit()).step;
  board.act(labels.duplicate(nameOfChosen(board)), (c) => duplicated(c, board.getState().chosen, ids, aside));
  choose(
    board,
    ids.filter((id) => board.shown().obstacles.some((o) => o.id === id)),
  );
}

/** Deletes what is chosen: pieces, a line, or the wheel path where nothing else is. */
export function remove(board: Board): void {
  const { chosen, line, tool } = board.getState();
  const course = board.shown();
  if (line) {
    board.act(labels.lineOff(line), (c) => withLine(c, line, null));
    board.setState({ line: null });
  } else if (chosen.length > 0) {
    const lastKept = board.desk.lastKept();
    const keeps = course.steps.some((s) => chosen.includes(s.obstacleId) && s.number <= lastKept);
    board.act(labels.remove(nameOfChosen(board)), (c) => withoutPieces(c, chosen, lastKept));
    board.setState({ chosen: [], place: null });
    board.say(keeps ? words.say.keptNumbers : '');
  } else if (tool.name === 'wheel' && course.wheelPath) {
    board.act(labels.wheelOff, ({ wheelPath: _, ...rest }) => rest);
  }
}

/** Puts a line where it usually lies and chooses it; chooses the one that is there already. */
export function putLine(board: Board, which: WhichLine): void {
  const course = board.shown();
  if (!lineOf(course, which)) board.act(labels.line(which), (c) => withLine(c, which, usualLine(c, which)));
  board.setState({ chosen: [], place: null, line: which });
}
