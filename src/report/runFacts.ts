import { builtBy } from '../course/builtBy.ts';
import { checkCourse } from '../course/checkCourse.ts';
import type { Course } from '../course/course.ts';
import type { PictureSize } from '../course/pictureLay.ts';
import type { RuleBook } from '../course/rules/book.ts';
import { wantedLine } from '../line/wantedLine.ts';
import type { Analysis } from '../review/analysis.ts';
import { withAngles } from '../review/angles.ts';
import { measuredLine } from '../review/compare/measuredLine.ts';
import type { ReviewState } from '../review/entities.ts';
import type { Clocks } from '../review/moments.ts';
import { triesStayed, type TryStayed } from '../review/pawsStayed.ts';
import { scoreOfRun, type RunScore } from '../review/runScore.ts';
import type { Quantity } from '../time/quantity.ts';
import { waysOf } from '../track/figures.ts';
import { groundFits } from '../track/groundFits.ts';
import type { RealLine } from '../track/realLine.ts';
import { usualCriterion } from '../track/stayed.ts';
import { stretchFigures, type StretchFigures } from '../track/stretches.ts';
import { wantedParts } from '../track/wantedParts.ts';

/** What a run came to beyond its analysis: by its rule book, and by the line that was measured. */
export interface RunFacts {
  /** Null without a rule book. */
  readonly score: { readonly of: RunScore; readonly book: string } | null;
  /** The dog's line on the ground; null where none was measured. */
  readonly line: RealLine | null;
  /** Stretches from one number to the next that the line covers. */
  readonly stretches: readonly StretchFigures[];
  /** How far her paws moved while she waited, where they were marked on ground that is known. */
  readonly paws: readonly TryStayed[];
}

export const noFacts: RunFacts = { score: null, line: null, stretches: [], paws: [] };

/** What of the run is not in its review. */
export interface RunWith {
  readonly clocks: Clocks;
  readonly book: RuleBook | undefined;
  /** Upright pictures of the clips, pixels, by footage id. */
  readonly pictures: ReadonlyMap<string, PictureSize>;
  /** Metres from which a paw has stepped; the usual where the coach has set none. */
  readonly stepCounts?: number;
}

/** Seed of the ways that lengths are read from: the same run always reads the same. */
const seed = 1;

/** Scores a run and measures its line, for whatever leaves the program: report, figures, analysis. */
export function runFacts(
  review: ReviewState,
  analysis: Analysis,
  { clocks, book, pictures, stepCounts = usualCriterion.countsFrom }: RunWith,
): RunFacts {
  const course = builtBy(review.course, book);
  const angles = withAngles(clocks, review.footage);
  const line = measuredLine(review, angles, analysis, { course, pictures, seed })?.line ?? null;
  const taken = analysis.taken
    .filter((t) => t.try === analysis.countedTry)
    .toSorted((a, b) => a.place - b.place);
  return {
    score: book ? { of: scored(review, analysis, book), book: book.name } : null,
    line,
    stretches: line
      ? stretchFigures(waysOf(line, seed), taken, wantedOf(review, course)).filter((s) => s.from === s.to - 1)
      : [],
    paws: [...pictures].flatMap(([footageId, picture]) => {
      const clock = angles.get(footageId);
      const fits = clock ? groundFits(review.fits, course, picture, footageId) : [];
      return fits.flatMap((fit) =>
        clock ? triesStayed(review, footageId, clock, fit, analysis.startLine, stepCounts) : [],
      );
    }),
  };
}

/** The part of the wanted line that belongs to each stretch. */
const wantedOf = ({ plan }: ReviewState, course: Course): ReturnType<typeof wantedParts> =>
  plan.wantedLine
    ? wantedParts(wantedLine(plan.wantedLine.nodes, plan.wantedLine.tension), course)
    : new Map<number, never>();

/**
 * What the way after each number took longer than the wanted one, seconds, by that number: where her line and the wanted one
 * are both there.
 */
export const lostAfter = ({ stretches }: RunFacts): ReadonlyMap<number, Quantity> =>
  new Map(stretches.flatMap(({ from, over }) => (over ? [[from, over.seconds] as const] : [])));

function scored({ course, header }: ReviewState, analysis: Analysis, book: RuleBook): RunScore {
  const level = course.head?.level.trim() ?? '';
  return scoreOfRun(book, {
    analysis,
    run: header.runKind,
    level: level === '' ? undefined : level,
    times: checkCourse(course, book).times,
  });
}
