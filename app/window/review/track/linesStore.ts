import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Course } from '../../../../src/course/course.ts';
import type { GroundFit } from '../../../../src/track/groundFits.ts';
import type { Flight } from '../../../../src/track/motion.ts';
import type { RunLines } from '../../../../src/track/runLines.ts';
import { samplesOf, type LineSample } from '../../../../src/track/samples.ts';

/** What the real line needs and does not have. */
export type Need = 'clip' | 'course' | 'fit' | 'marks';

/** The lines of the clip on the desk, as they are shown. */
export interface LinesView {
  readonly need: Need | null;
  readonly footageId: string | null;
  /** Built by its rule book. */
  readonly course: Course | null;
  readonly ground: GroundFit | null;
  readonly flights: readonly Flight[];
  readonly lines: RunLines;
  readonly samples: {
    readonly dog: readonly LineSample[];
    readonly handler: readonly LineSample[];
  };
}

const noLines: RunLines = { dog: null, handler: null };
export const nothingShown: LinesView = {
  need: 'clip',
  footageId: null,
  course: null,
  ground: null,
  flights: [],
  lines: noLines,
  samples: { dog: [], handler: [] },
};

export type LinesStore = StoreApi<LinesView>;

export const createLinesStore = (): LinesStore => createStore<LinesView>()(() => nothingShown);

/** The view of these lines. */
export function viewOf(view: Omit<LinesView, 'need' | 'samples'>): LinesView {
  const { course, ground, footageId, lines } = view;
  const { dog, handler } = lines;
  const drawn = course?.obstacles.some((o) => o.stand) === true;
  const need =
    footageId === null
      ? 'clip'
      : !drawn
        ? 'course'
        : !ground
          ? 'fit'
          : !dog?.line && !handler?.line
            ? 'marks'
            : null;
  const of = (line: typeof dog): readonly LineSample[] => (line?.line ? samplesOf(line.line) : []);
  return { ...view, need, samples: { dog: of(dog), handler: of(handler) } };
}
