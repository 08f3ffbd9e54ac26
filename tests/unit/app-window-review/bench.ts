import { countedCourse, type Course } from '../../../src/course/course.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { Header } from '../../../src/review/document.ts';
import { applyChanges, type Change, type ReviewState } from '../../../src/review/entities.ts';
import type { Clocks } from '../../../src/review/moments.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { createDesk, type Desk, type Player } from '../../../app/window/review/desk/desk.ts';
import { createHands, type Hands } from '../../../app/window/review/desk/hands.ts';

/** A review on the bench: a clip of 50 frames a second, a course, and nothing marked. */
export function emptyReview(course: Course = countedCourse(5)): ReviewState {
  return {
    id: 'r1',
    header: Header.parse({ title: 'Evening run' }),
    course,
    plan: emptyPlan(),
    footage: [{ id: 'f1', clipId: 'c1', name: 'side.mp4', speed: [], offset: 0, rate: 1 }],
    marks: [],
    crosses: [],
    drawings: [],
    tracks: [],
    fits: [],
  };
}

/** Frame tables: `f1` with 50 frames a second, one hundredth of a second a tick. */
export function clocks(frames = 2000): Map<string, NonNullable<ReturnType<Clocks['get']>>> {
  const table = frameTable(
    timeBase(1, 100),
    Array.from({ length: frames }, (_, i) => 2 * i),
  );
  return new Map([['f1', { table, speed: [], offset: 0, rate: 1 }]]);
}

export interface Bench {
  readonly desk: Desk;
  readonly hands: Hands;
  readonly player: { -readonly [K in keyof Player]: Player[K] } & {
    readonly shown: number[];
    readonly loops: unknown[];
    readonly journeys: (readonly [by: 1 | -1, until: number])[];
  };
  review(): ReviewState;
  /** Labels of all acts so far. */
  readonly labels: string[];
  readonly acts: (readonly Change[])[];
  at(frame: number): void;
}

/** A desk with hands over a review that lives in memory; acts are applied at once, as the store does. */
export function bench(start: ReviewState = emptyReview(), allClocks: Clocks = clocks()): Bench {
  let review = start;
  let ids = 0;
  const labels: string[] = [];
  const acts: (readonly Change[])[] = [];
  const shown: number[] = [];
  const loops: unknown[] = [];
  const journeys: (readonly [by: 1 | -1, until: number])[] = [];
  let arrive: () => void = () => undefined;
  const player = {
    shown,
    show: (frame: number) => {
      shown.push(frame);
      return Promise.resolve();
    },
    play: () => {
      desk.setPlaying(true);
    },
    pause: () => {
      desk.setPlaying(false);
    },
    stepOff: () => null,
    /** Journeys of a held key: which way, and how far at most. */
    journeys,
    travel: (by: 1 | -1, until: number) => {
      journeys.push([by, until]);
      return new Promise<void>((resolve) => (arrive = resolve));
    },
    halt: () => {
      arrive();
    },
    setSpeed: () => undefined,
    setMuted: () => undefined,
    setLoop: (loop: unknown) => void loops.push(loop),
    loops,
  };
  const desk: Desk = createDesk({
    review: () => review,
    clocks: () => allClocks,
    apply(label, changes) {
      labels.push(label);
      acts.push(changes);
      review = applyChanges(review, changes);
    },
    makeId: () => `id${++ids}`,
    player: () => player,
  });
  desk.settle();
  return {
    desk,
    hands: createHands(desk),
    player,
    review: () => review,
    labels,
    acts,
    at(frame) {
      desk.goToFrame(frame);
    },
  };
}
