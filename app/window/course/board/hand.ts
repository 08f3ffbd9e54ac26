import { middleOfChosen } from '../../../../src/course/drawing/arrange.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import { distance, headingTo } from '../../../../src/course/pose.ts';
import { lineMoved, lineOf, withLine } from '../../../../src/course/postLines.ts';
import { wheelled } from '../../../../src/course/wheel.ts';
import { drawingWords as words } from '../../../../src/words/drawing.ts';
import type { Board } from './board.ts';
import { choose, nameOfChosen } from './choosing.ts';
import { changesCourse, withGesture, type Gesture } from './gesture.ts';
import { giveNumber } from './numbers.ts';
import { gripUnder } from './overlay.ts';
import { bendHandles, knobOf, lineUnder, pieceUnder, piecesWithin } from './under.ts';
import { placed, put } from './verbs.ts';

/** How a press was made. */
export interface PressKind {
  /** Shift or Ctrl: choose this too. */
  readonly more: boolean;
  /** The middle or right button, or a second finger: the sheet is pushed. */
  readonly push: boolean;
}

/** Pixels around a handle, and around a piece, that still count as on it. */
const grabbed = 12;
const slack = 7;
/** Pixels a pointer must go before a press counts as a drag. */
const dragFrom = 3;

interface Press {
  readonly x: number;
  readonly y: number;
  readonly at: GroundPoint;
  /** What begins once the pointer has gone far enough. */
  readonly begins: Gesture | null;
  /** What a press without a drag does. */
  readonly click: () => void;
}

/** The hand on the board: presses, drags and clicks in pixels of the board become gestures and acts. */
export interface Hand {
  press(x: number, y: number, kind: PressKind): void;
  move(x: number, y: number): void;
  release(): void;
  /** The pointer was taken away, or Escape pressed: what was being done is not done. */
  cancel(): void;
  /** What the pointer would take hold of. */
  over(x: number, y: number): 'handle' | 'piece' | 'ground';
}

export function createHand(board: Board): Hand {
  let pressed: Press | null = null;

  const handleUnder = (at: GroundPoint): Gesture | null => {
    const course = board.built();
    const { chosen } = board.getState();
    const { scale } = board.camera();
    const knob = knobOf(course, chosen, scale);
    const about = middleOfChosen(course, chosen);
    if (knob && about && distance(knob, at) <= grabbed / scale) {
      return { what: 'turn', ids: chosen, about, degrees: 0, from: headingTo(about, at) };
    }
    const bend = bendHandles(course, chosen);
    const i = bend.findIndex((p) => distance(p, at) <= grabbed / scale);
    const [id] = chosen;
    return i >= 0 && id !== undefined ? { what: 'bend', id, at: i, bend } : null;
  };

  const pressFor = (x: number, y: number, { more, push }: PressKind): Press => {
    const at = board.ground(x, y);
    const { tool, chosen } = board.getState();
    const { scale } = board.camera();
    const course = board.shown();
    const none = (): void => undefined;
    const plain = { x, y, at };
    if (push) return { ...plain, begins: { what: 'push', x, y }, click: none };
    if (tool.name === 'put') {
      return {
        ...plain,
        begins: null,
        click: () => {
          put(board, tool.kind, at);
        },
      };
    }
    if (tool.name === 'wheel') return { ...plain, begins: { what: 'wheel', points: [at] }, click: none };
    if (tool.name === 'line') {
      const p = placed(board, at);
      const line = { from: p, to: p };
      return {
        ...plain,
        begins: { what: 'line', which: tool.which, line, end: 'to', grip: at },
        click: none,
      };
    }
    const piece = pieceUnder(board.built(), at, slack / scale);
    if (tool.name === 'number') {
      return {
        ...plain,
        begins: { what: 'push', x, y },
        click: () => {
          if (piece) giveNumber(board, piece, at);
        },
      };
    }
    const grip = gripUnder(board.overlay().grips, at, grabbed / scale);
    if (grip && !more) {
      board.settle();
      board.setState({ grip: grip.id, chosen: [], line: null });
      return { ...plain, begins: { what: 'grip', grip, to: at }, click: none };
    }
    const handle = more ? null : handleUnder(at);
    if (handle) return { ...plain, begins: handle, click: none };
    if (piece?.stand) {
      const has = chosen.includes(piece.id);
      const ids = has ? chosen : more ? [...chosen, piece.id] : [piece.id];
      // What is dragged is chosen at once; a click on one of several leaves only that one.
      if (!has) choose(board, ids);
      return {
        ...plain,
        begins: { what: 'move', ids, from: at, held: piece.stand, dx: 0, dy: 0 },
        click: () => {
          if (has) choose(board, more ? chosen.filter((id) => id !== piece.id) : [piece.id]);
        },
      };
    }
    const onLine = lineUnder(course, at, grabbed / scale);
    const line = onLine && lineOf(course, onLine.which);
    if (onLine && line) {
      board.settle();
      board.setState({ chosen: [], place: null, line: onLine.which, grip: null });
      return { ...plain, begins: { what: 'line', ...onLine, line, grip: at }, click: none };
    }
    return {
      ...plain,
      begins: { what: 'box', from: at, to: at, add: more },
      click: () => {
        if (!more) choose(board, []);
      },
    };
  };

  const carriedOn = (gesture: Gesture, x: number, y: number): Gesture => {
    const at = board.ground(x, y);
    switch (gesture.what) {
      case 'push':
        board.push(x - gesture.x, y - gesture.y);
        return { ...gesture, x, y };
      case 'grip':
        gesture.grip.drag(at);
        return { ...gesture, to: at };
      case 'move': {
        const { held, from } = gesture;
        const to = placed(board, { x: held.x + at.x - from.x, y: held.y + at.y - from.y });
        return { ...gesture, dx: to.x - held.x, dy: to.y - held.y };
      }
      case 'turn': {
        const turned = headingTo(gesture.about, at) - gesture.from;
        const step = board.getState().grid === 'snap' ? 5 : 1;
        return { ...gesture, degrees: Math.round(turned / step) * step };
      }
      case 'bend':
        return { ...gesture, bend: gesture.bend.map((p, i) => (i === gesture.at ? at : p)) };
      case 'box':
        return { ...gesture, to: at };
      case 'wheel':
        return { ...gesture, points: [...gesture.points, at] };
      case 'line': {
        if (gesture.end === 'both') {
          const by = lineMoved(gesture.line, at.x - gesture.grip.x, at.y - gesture.grip.y);
          return { ...gesture, line: by, grip: at };
        }
        return { ...gesture, line: { ...gesture.line, [gesture.end]: placed(board, at) } };
      }
    }
  };

  const finish = (gesture: Gesture): void => {
    const { labels } = words;
    switch (gesture.what) {
      case 'push':
        return;
      case 'grip':
        gesture.grip.drop(gesture.to);
        return;
      case 'box': {
        const within = piecesWithin(board.shown(), gesture.from, gesture.to);
        const before = gesture.add ? board.getState().chosen : [];
        choose(board, [...before, ...within.filter((id) => !before.includes(id))]);
        return;
      }
      case 'wheel': {
        const path = wheelled(gesture.points);
        if (path) board.act(labels.wheel, (c) => ({ ...c, wheelPath: [...path] }));
        return;
      }
      case 'line': {
        const { which, line } = gesture;
        if (distance(line.from, line.to) < 0.3) return;
        board.act(labels.line(which), (c) => withLine(c, which, line));
        board.setState({ tool: { name: 'choose' }, chosen: [], place: null, line: which });
        return;
      }
      case 'move':
      case 'turn':
      case 'bend': {
        if (!changesCourse(gesture)) return;
        const name = nameOfChosen(board);
        const label =
          gesture.what === 'move'
            ? labels.move(name)
            : gesture.what === 'turn'
              ? labels.turn(name)
              : labels.bend;
        board.act(label, (c) => withGesture(c, gesture));
      }
    }
  };

  return {
    press(x, y, kind) {
      board.settle();
      pressed = pressFor(x, y, kind);
    },
    move(x, y) {
      board.setPointer(board.ground(x, y));
      if (!pressed) return;
      const going = board.gesture();
      if (!going && Math.hypot(x - pressed.x, y - pressed.y) < dragFrom) return;
      const gesture = going ?? pressed.begins;
      if (gesture) board.setGesture(carriedOn(gesture, x, y));
    },
    release() {
      const gesture = board.gesture();
      const was = pressed;
      pressed = null;
      if (!was) return;
      if (gesture) {
        // Kept first, so that nothing jumps back between the lifting of the hand and the new drawing.
        finish(gesture);
        board.setGesture(null);
      } else was.click();
    },
    cancel() {
      const gesture = board.gesture();
      if (gesture?.what === 'grip') gesture.grip.leave();
      pressed = null;
      board.setGesture(null);
    },
    over(x, y) {
      const at = board.ground(x, y);
      const { scale } = board.camera();
      if (board.getState().tool.name === 'choose') {
        if (gripUnder(board.overlay().grips, at, grabbed / scale)) return 'handle';
        if (handleUnder(at) || lineUnder(board.shown(), at, grabbed / scale)) return 'handle';
      }
      return pieceUnder(board.built(), at, slack / scale) ? 'piece' : 'ground';
    },
  };
}
