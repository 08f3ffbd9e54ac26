import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Course, Obstacle } from '../../../../src/course/course.ts';
import type { ObstacleKind } from '../../../../src/course/kinds.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';
import type { WhichLine } from '../../../../src/course/postLines.ts';
import {
  anchored,
  extentOfCourse,
  fitted,
  nearly,
  pushed,
  toGround,
  zoomed,
  type Camera,
  type Size,
} from './camera.ts';
import type { Gesture } from './gesture.ts';
import { noOverlay, type Grip, type Overlay } from './overlay.ts';

/** What a press on the board does. */
export type Tool =
  | { readonly name: 'choose' | 'number' | 'wheel' }
  | { readonly name: 'put'; readonly kind: ObstacleKind }
  | { readonly name: 'line'; readonly which: WhichLine };

export const grids = ['snap', 'shown', 'none'] as const;
export type Grid = (typeof grids)[number];

export interface BoardView {
  readonly tool: Tool;
  /** Ids of chosen pieces in the order in which they were chosen. */
  readonly chosen: readonly string[];
  /** A start or finish line that is chosen instead. */
  readonly line: WhichLine | null;
  /** The number in hand: the one whose direction, backside and wrap the keys change. */
  readonly place: number | null;
  readonly grid: Grid;
  /** The course with moves by keys that are not kept yet; null where there are none. */
  readonly draft: Course | null;
  /** Id of what is in hand of that which a page lays over the course; null where nothing is. */
  readonly grip: string | null;
  /** The newest thing to read out. */
  readonly said: string;
}

/** What the board needs of the open review. */
export interface BoardDesk {
  /** The course as it is shown, without the draft. */
  course(): Course;
  /** A course as it stands when its equipment is built by its rule book; to be looked at, never to be kept. */
  built(course: Course): Course;
  changeCourse(label: string, change: (course: Course) => Course): void;
  /** The highest number on which marks or plans stand. */
  lastKept(): number;
  unit(): 'metres' | 'feet';
  /** What a piece is called: "4, the gate", "bar jump". */
  nameOf(course: Course, id: string): string;
  kindName(kind: ObstacleKind): string;
  newId(): string;
}

/**
 * The drawing board: what is chosen, which tool is out, what the hand does, which part of the ground is seen. What
 * changes with each movement of the hand (`gesture`, `camera`, `pointer`) is kept beside the store, so that React
 * draws nothing while something is dragged; `onPaint` is told instead.
 */
export interface Board extends StoreApi<BoardView> {
  readonly desk: BoardDesk;
  gesture(): Gesture | null;
  setGesture(gesture: Gesture | null): void;
  camera(): Camera;
  size(): Size;
  setSize(size: Size): void;
  /** Where the pointer is on the ground; null while it is elsewhere. */
  pointer(): GroundPoint | null;
  setPointer(pointer: GroundPoint | null): void;
  /** What the page in front lays over the course. */
  overlay(): Overlay;
  setOverlay(overlay: Overlay): void;
  /** Moves what is in hand of it by keys: one undo after a pause. False where nothing is in hand. */
  nudgeGrip(dx: number, dy: number): boolean;
  ground(x: number, y: number): GroundPoint;
  zoom(by: number, x?: number, y?: number): void;
  push(dx: number, dy: number): void;
  fit(): void;
  /** The course as it is to be shown: with the draft. */
  shown(): Course;
  /** The same with its equipment as its rule book builds it: to be painted and touched, never to be kept. */
  built(): Course;
  /** A piece of a kind as the rule book builds it, with nothing of its own. */
  usual(kind: ObstacleKind): Obstacle;
  /** Changes that are put together and kept after a pause: one undo for one move by keys. */
  nudge(label: string, change: (course: Course) => Course): void;
  /** Keeps what is not kept yet. */
  settle(): void;
  /** One act, after what was not kept yet. */
  act(label: string, change: (course: Course) => Course): void;
  say(text: string): void;
  onPaint(on: () => void): () => void;
}

/** Milliseconds without another press until moves by keys are kept. */
export const keyPause = 600;

/** Makes a board over the open review. `later` runs something after milliseconds and returns the way to stop it. */
export function createBoard(
  desk: BoardDesk,
  grid: Grid = 'snap',
  later: (run: () => void, ms: number) => () => void = (run, ms) => {
    const timer = setTimeout(run, ms);
    return () => {
      clearTimeout(timer);
    };
  },
): Board {
  const store = createStore<BoardView>()(() => ({
    tool: { name: 'choose' },
    chosen: [],
    line: null,
    place: null,
    grid,
    draft: null,
    grip: null,
    said: '',
  }));
  let gesture: Gesture | null = null;
  let pointer: GroundPoint | null = null;
  let overlay: Overlay = noOverlay;
  let size: Size = { width: 0, height: 0 };
  let camera: Camera | null = null;
  /** True until somebody looked closer or pushed the sheet: then a new size shows the whole again. */
  let whole = true;
  /** True once a hand has been on the board: until then the window is still finding its shape. */
  let used = false;
  let waiting: { label: string; changes: ((course: Course) => Course)[] } | null = null;
  let waitingGrip: { grip: Grip; to: GroundPoint } | null = null;
  let stop: () => void = () => undefined;
  const painters = new Set<() => void>();
  const paint = (): void => {
    for (const on of painters) on();
  };
  store.subscribe(paint);

  const settle = (): void => {
    stop();
    const kept = waiting;
    waiting = null;
    const moved = waitingGrip;
    waitingGrip = null;
    moved?.grip.drop(moved.to);
    if (kept) desk.changeCourse(kept.label, (c) => kept.changes.reduce((next, change) => change(next), c));
    if (store.getState().draft) store.setState({ draft: null });
  };
  const fit = (): Camera => fitted(extentOfCourse(desk.course()), size);
  const seen = (): Camera => (camera ??= fit());

  return Object.assign(store, {
    desk,
    gesture: () => gesture,
    setGesture(next: Gesture | null) {
      gesture = next;
      paint();
    },
    camera: seen,
    size: () => size,
    setSize(next: Size) {
      const before = size;
      size = next;
      camera = whole && !(used && nearly(before, next)) ? null : camera && anchored(camera, before, next);
      paint();
    },
    pointer: () => pointer,
    setPointer(next: GroundPoint | null) {
      pointer = next;
      if (next) used = true;
      if (store.getState().tool.name === 'put') paint();
    },
    overlay: () => overlay,
    setOverlay(next: Overlay) {
      overlay = next;
      paint();
    },
    nudgeGrip(dx: number, dy: number) {
      const id = store.getState().grip;
      const grip = overlay.grips.find((g) => g.id === id);
      if (!grip) return false;
      if (waiting || (waitingGrip && waitingGrip.grip.id !== id)) settle();
      const from = waitingGrip?.to ?? grip.at;
      const to = { x: from.x + dx, y: from.y + dy };
      waitingGrip = { grip, to };
      grip.drag(to);
      stop();
      stop = later(settle, keyPause);
      return true;
    },
    ground: (x: number, y: number) => toGround(seen(), size, x, y),
    zoom(by: number, x?: number, y?: number) {
      whole = false;
      camera = zoomed(seen(), size, by, x, y);
      paint();
    },
    push(dx: number, dy: number) {
      whole = false;
      camera = pushed(seen(), dx, dy);
      paint();
    },
    fit() {
      whole = true;
      camera = null;
      paint();
    },
    shown: () => store.getState().draft ?? desk.course(),
    usual(kind: ObstacleKind) {
      const plain: Obstacle = { id: kind, kind, nickname: '' };
      return desk.built({ ...desk.course(), steps: [], obstacles: [plain] }).obstacles[0] ?? plain;
    },
    built: () => desk.built(store.getState().draft ?? desk.course()),
    nudge(label: string, change: (course: Course) => Course) {
      if (waiting && waiting.label !== label) settle();
      waiting = { label, changes: [...(waiting?.changes ?? []), change] };
      store.setState(({ draft }) => ({ draft: change(draft ?? desk.course()) }));
      stop();
      stop = later(settle, keyPause);
    },
    settle,
    act(label: string, change: (course: Course) => Course) {
      settle();
      used = true;
      desk.changeCourse(label, change);
    },
    say(said: string) {
      store.setState({ said });
    },
    onPaint(on: () => void) {
      painters.add(on);
      return () => {
        painters.delete(on);
      };
    },
  });
}
