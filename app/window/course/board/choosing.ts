import type { Course, Obstacle } from '../../../../src/course/course.ts';
import { lengthWords, drawingWords as words } from '../../../../src/words/drawing.ts';
import type { Board, Tool } from './board.ts';

/** The pieces that are chosen, as far as they still are there. */
export function chosenPieces(board: Board, course: Course = board.shown()): readonly Obstacle[] {
  const byId = new Map(course.obstacles.map((o) => [o.id, o]));
  return board.getState().chosen.flatMap((id) => {
    const o = byId.get(id);
    return o?.stand ? [o] : [];
  });
}

/** Chooses pieces; the number in hand becomes one of theirs unless it is already. */
export function choose(board: Board, ids: readonly string[], place?: number): void {
  board.settle();
  const course = board.shown();
  const [first] = ids;
  const numbers = course.steps.filter((s) => s.obstacleId === first).map((s) => s.number);
  const before = board.getState().place;
  const inHand = place ?? (before !== null && numbers.includes(before) ? before : (numbers[0] ?? null));
  board.setState({ chosen: ids, line: null, place: inHand, grip: null });
  if (first !== undefined) board.say(aboutChosen(board));
}

/** Chooses the piece under a number. */
export function choosePlace(board: Board, place: number | null): void {
  const course = board.shown();
  const id = course.steps.find((s) => s.number === place)?.obstacleId;
  const stands = course.obstacles.some((o) => o.id === id && o.stand);
  board.settle();
  board.setState({ chosen: id !== undefined && stands ? [id] : [], line: null, place, grip: null });
}

/** What is chosen, in words: its name and place. */
export function aboutChosen(board: Board): string {
  const course = board.shown();
  const pieces = chosenPieces(board, course);
  const [only] = pieces;
  if (!only?.stand) return '';
  if (pieces.length > 1) return words.say.several(pieces.length);
  const unit = board.desk.unit();
  const { x, y, headingDegrees } = only.stand;
  const at = words.say.at(lengthWords(x, unit), lengthWords(y, unit), headingDegrees);
  return words.say.chosen(board.desk.nameOf(course, only.id), at);
}

/** Names what is chosen for the label of an act: the piece, or how many. */
export function nameOfChosen(board: Board): string {
  const { chosen, line } = board.getState();
  const [only] = chosen;
  if (line) return words.line(line);
  if (chosen.length !== 1 || only === undefined) return words.say.several(chosen.length);
  return board.desk.nameOf(board.shown(), only);
}

/** Pieces in the order in which keys go through them: by their first number, then those without one. */
function inOrder(course: Course): readonly string[] {
  const first = new Map<string, number>();
  for (const s of course.steps)
    first.set(s.obstacleId, Math.min(s.number, first.get(s.obstacleId) ?? Infinity));
  return course.obstacles
    .filter((o) => o.stand)
    .toSorted((a, b) => (first.get(a.id) ?? Infinity) - (first.get(b.id) ?? Infinity) || 0)
    .map((o) => o.id);
}

/** Goes on to the next (or the previous) piece; `too` keeps what is chosen. */
export function choosePiece(board: Board, by: 1 | -1, too = false): void {
  const order = inOrder(board.shown());
  const { chosen } = board.getState();
  const last = chosen.at(-1);
  if (!too || last === undefined) {
    const at = last === undefined ? (by > 0 ? -1 : order.length) : order.indexOf(last);
    const next = order[(at + by + order.length) % order.length];
    if (next !== undefined) choose(board, [next]);
    return;
  }
  const start = order.indexOf(last);
  for (let i = 1; i < order.length; i++) {
    const next = order[(start + i * by + order.length * i) % order.length];
    if (next !== undefined && !chosen.includes(next)) {
      choose(board, [...chosen, next]);
      return;
    }
  }
}

export function chooseAll(board: Board): void {
  choose(board, inOrder(board.shown()));
}

/** Takes a tool up; the one that is out already is put away. */
export function takeTool(board: Board, tool: Tool): void {
  const now = board.getState().tool;
  const same =
    now.name === tool.name &&
    (now.name !== 'put' || (tool.name === 'put' && now.kind === tool.kind)) &&
    (now.name !== 'line' || (tool.name === 'line' && now.which === tool.which));
  board.settle();
  board.setGesture(null);
  board.setState({ tool: same ? { name: 'choose' } : tool });
}
