import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Course } from '../../../../src/course/course.ts';
import type { LikelyLine, LineRange, LineWish } from '../../../../src/line/line.ts';
import type { Runner } from '../../../../src/line/runner.ts';
import type { DogSkills } from '../../../../src/line/skills.ts';
import { wishOf } from '../../../../src/plan/lineWish.ts';
import type { Plan, PlanSheet } from '../../../../src/plan/plan.ts';
import type { Board } from '../board/board.ts';
import { withGesture } from '../board/gesture.ts';

/** Lines that can be shown or hidden. */
export const shownLines = ['likely', 'wanted', 'measured'] as const;
export type ShownLine = (typeof shownLines)[number];

export interface LinesView {
  /** The course as it is now, with what the hand carries. */
  readonly course: Course;
  /** The plan in use as it is now, with the spot that the hand carries. */
  readonly sheet: PlanSheet;
  /** Null where fewer than two numbers are drawn. */
  readonly line: LikelyLine | null;
  /** How tightly and how widely she may run; only where nothing is being moved. */
  readonly range: LineRange | null;
  readonly show: Readonly<Record<ShownLine, boolean>>;
}

/** What a line depends on beside course and plan. */
export interface LinesOf {
  readonly runner: Runner;
  readonly skills: DogSkills | undefined;
}

/** What works the lines out; a session keeps what a moved piece does not touch. */
export interface LineWorks {
  line(course: Course, wish: LineWish): LikelyLine | null;
  range(course: Course, wish: LineWish): LineRange | null;
}

/**
 * The lines over the course, worked out again whenever course, plan or dog are others, also while something is being
 * dragged: once a frame at the most.
 */
export interface LinesDesk extends StoreApi<LinesView> {
  /** Shows the plan as it would be were the hand lifted now; null puts that away. */
  draft(change: ((sheet: PlanSheet) => PlanSheet) | null): void;
  show(line: ShownLine, on: boolean): void;
  /** Says that something may be another; what is, is worked out at the next frame. */
  ask(): void;
  /** Follows the board until what it returns is called; before that nothing is worked out. */
  start(): () => void;
}

/** The plan in use. */
export function sheetInUse({ others: _, ...sheet }: Plan): PlanSheet {
  return sheet;
}

/** Milliseconds without a change until the range is worked out too. */
const rest = 150;

export function createLinesDesk(
  board: Board,
  works: LineWorks,
  plan: () => Plan,
  of: () => LinesOf,
  frame: (run: () => void) => () => void = (run) => {
    const id = requestAnimationFrame(run);
    return () => {
      cancelAnimationFrame(id);
    };
  },
): LinesDesk {
  let drafted: ((sheet: PlanSheet) => PlanSheet) | null = null;
  let known: readonly unknown[] = [];
  let stopFrame: (() => void) | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const store = createStore<LinesView>()(() => ({
    course: board.built(),
    sheet: sheetInUse(plan()),
    line: null,
    range: null,
    show: { likely: true, wanted: true, measured: false },
  }));

  const widen = (): void => {
    const { course, sheet, line } = store.getState();
    const range = works.range(course, wishOf(sheet, of().runner));
    // What was found in a hurry, while the hand moved, is made up for.
    store.setState({ range, line: range?.usual ?? line });
  };
  const now = (): void => {
    stopFrame = null;
    const gesture = board.gesture();
    const [built, planned, { runner }] = [board.built(), plan(), of()];
    // A grip tells its own draft; a push or a box changes nothing of the course.
    const moving = gesture && withGesture(built, gesture) !== built ? gesture : null;
    const facts = [built, planned, runner, moving, drafted];
    if (facts.every((fact, i) => fact === known[i])) return;
    known = facts;
    clearTimeout(timer);
    const course = moving ? withGesture(built, moving) : built;
    const inUse = sheetInUse(planned);
    const sheet = drafted ? drafted(inUse) : inUse;
    store.setState({ course, sheet, line: works.line(course, wishOf(sheet, runner)), range: null });
    if (!moving && !drafted) timer = setTimeout(widen, rest);
  };
  let running = 0;
  const ask = (): void => {
    if (running > 0) stopFrame ??= frame(now);
  };
  return Object.assign(store, {
    draft(change: ((sheet: PlanSheet) => PlanSheet) | null) {
      drafted = change;
      ask();
    },
    show(line: ShownLine, on: boolean) {
      store.setState(({ show }) => ({ show: { ...show, [line]: on } }));
    },
    ask,
    start() {
      const stopBoard = board.onPaint(ask);
      running += 1;
      ask();
      return () => {
        running -= 1;
        stopBoard();
        stopFrame?.();
        stopFrame = null;
        clearTimeout(timer);
      };
    },
  });
}
