import type { Analysis, Moment } from '../review/analysis.ts';
import type { ReviewState } from '../review/entities.ts';
import type { Exercise } from '../review/exercise.ts';
import { coachingReport as words, dayWritten } from '../words/coachingReport.ts';
import { usualExercises } from '../words/exercises.ts';
import { eventName, isClock } from './eventName.ts';
import { crossNamed, verdictWords } from '../words/verdicts.ts';
import type { ReportCopy } from './copies.ts';
import { crossCards, type CardContext, type CrossCard } from './crossCards.ts';
import { builtBy } from '../course/builtBy.ts';
import { courseMap, type CourseMap } from '../course/courseMap.ts';
import type { RuleBook } from '../course/rules/book.ts';
import { mapLines, type MapLine } from './mapLines.ts';
import { maskFor, type Mask } from './names.ts';
import { sentencesOf, type OpenSentence } from './ownWords.ts';
import { picturesOf, type Picture } from './pictures.ts';
import { smallPrint, type ClipUsed, type SmallPrint } from './smallPrint.ts';
import { startCards, type StartCard } from './startCards.ts';
import { figureAt, written, type Figure, type Line } from './pieces.ts';
import { placesOf, type Dialect, type Places } from './places.ts';
import { resultTold } from './result.ts';
import { lostAfter, noFacts, type RunFacts } from './runFacts.ts';
import type { Still } from './stills.ts';
import { toTrain, type TrainItem } from './toTrain.ts';
import { wentWellFacts } from './wentWell.ts';

export interface ReportInput {
  readonly review: ReviewState;
  readonly analysis: Analysis;
  readonly clips: readonly ClipUsed[];
  /** Stills by the id of their mark or drawing (see stillsWanted); those that are missing are said to be. */
  readonly stills: ReadonlyMap<string, Still>;
  readonly dialect?: Dialect;
  /** The rule book that the equipment of the map is built by. */
  readonly book?: RuleBook | undefined;
  /** What the run came to by its rule book and its measured line. */
  readonly facts?: RunFacts;
  /** The coach's exercises; the usual ones where she has none of her own. */
  readonly exercises?: readonly Exercise[];
  readonly copy?: ReportCopy;
}

/** One stretch on the line of time. */
export interface BandPiece {
  readonly to: number;
  readonly seconds: number;
  /** Verdict of the cross at this obstacle, as key and in words. */
  readonly cross: { readonly words: string; readonly verdict: CrossCard['verdict'] } | null;
  readonly events: readonly string[];
}

export interface SplitRow {
  readonly number: number;
  readonly what: Line;
  readonly split: Figure;
  readonly clock: Figure | null;
  /** The way from out to out and the speed over it, where her line was measured. */
  readonly metres: Figure | null;
  readonly speed: Figure | null;
  /** Length of the split in parts of 1 of the longest. */
  readonly share: number;
}

export interface EventLine {
  readonly where: Line;
  readonly what: Line;
  readonly clock: Figure;
  readonly note: Line;
}

/** Everything the report says, in order, before any writer gives it a shape. */
export interface ReportModel {
  readonly reviewId: string;
  readonly copy: ReportCopy;
  readonly title: Line;
  readonly team: Line | null;
  readonly day: string | null;
  readonly runKind: string;
  readonly wentWell: { readonly coach: string | null; readonly facts: readonly Line[] };
  readonly glance: {
    readonly clock: Figure | null;
    readonly clockBy: string;
    readonly rows: readonly { readonly label: string; readonly value: string }[];
    readonly band: readonly BandPiece[];
    readonly map: CourseMap | null;
    /** Lines over the map. */
    readonly lines: readonly MapLine[];
  };
  readonly splits: readonly SplitRow[];
  readonly crosses: readonly CrossCard[];
  readonly plannedOnly: readonly Line[];
  readonly startLine: readonly StartCard[];
  readonly drawings: readonly { readonly caption: string; readonly picture: Picture }[];
  readonly events: readonly EventLine[];
  /** In the coach's words, else what the run says. */
  readonly toTrain: { readonly coach: string | null; readonly items: readonly TrainItem[] };
  readonly notes: string | null;
  /** Of the coach's own copy. */
  readonly forCoach: { readonly notes: string | null; readonly alsoSeen: readonly TrainItem[] };
  /** What the coach may put in her own words. */
  readonly sentences: readonly OpenSentence[];
  readonly smallPrint: SmallPrint;
}

/**
 * Builds the report of a review. Pure. Every figure in it stands in the analysis, too: `Figure.path` says where
 * (see analysisDocument). Names are left out of all texts where the header asks for it.
 */
export function buildReport(input: ReportInput): ReportModel {
  const { review, analysis } = input;
  const { header } = review;
  const mask = maskFor(header);
  const places = placesOf(review, input.dialect ?? 'british', mask);
  const { facts = noFacts, copy = 'student', exercises = usualExercises } = input;
  const sentences = sentencesOf(header, mask);
  const context: CardContext = {
    review,
    sentences,
    facts,
    analysis,
    places,
    mask,
    pictures: picturesOf(review, input.stills),
    frame: frameWords(review),
  };
  const coach = text(header.words.wentWell, mask);
  const hers = text(header.words.toTrain, mask);
  const byRun = toTrain(analysis, header, exercises, lostAfter(facts));
  const map = courseMap(builtBy(review.course, input.book));
  return {
    reviewId: review.id,
    copy,
    title: [written(mask(header.title))],
    team: teamOf(review),
    day: header.day === '' ? null : dayWritten(header.day),
    runKind: words.runKind[header.runKind],
    wentWell: {
      coach,
      facts: coach === null ? wentWellFacts(analysis, review.course.steps.length, places) : [],
    },
    glance: {
      clock: analysis.clock ? figureAt('clock.time', analysis.clock.time) : null,
      clockBy: analysis.clock ? words.clockBy(analysis.clock) : words.noClock,
      rows: glanceRows(review, analysis, facts),
      band: band(analysis, mask),
      map,
      lines: mapLines(map, review.plan, facts.line),
    },
    splits: splitRows(analysis, places, facts),
    crosses: crossCards(context),
    plannedOnly: plannedOnly(review, places),
    startLine: startCards(context, facts),
    drawings: drawings(context),
    events: eventLines(analysis, places, mask),
    toTrain: { coach: hers, items: hers === null ? byRun.first : [] },
    notes: text(header.words.notes, mask),
    forCoach: {
      notes: copy === 'coach' ? text(header.report?.forCoach ?? '', mask) : null,
      alsoSeen: copy === 'coach' ? byRun.also : [],
    },
    sentences: sentences.all,
    smallPrint: smallPrint(input, facts),
  };
}

function text(words: string, mask: Mask): string | null {
  const trimmed = words.trim();
  return trimmed === '' ? null : mask(trimmed);
}

function teamOf(review: ReviewState): Line | null {
  const { dog, handler, words: own } = review.header;
  const team = words.team(handler.trim(), dog.trim());
  return own.leaveNamesOut || team === '' ? null : [written(team)];
}

function frameWords(review: ReviewState): (m: Pick<Moment, 'footageId' | 'frame'>) => string {
  const number = new Map(review.footage.map((f, i) => [f.id, i + 1]));
  return (m) => {
    const clip = number.get(m.footageId);
    if (review.footage.length < 2 || clip === undefined) return words.frame(m.frame);
    return words.frameIn(m.frame, words.clipNumbered(clip));
  };
}

function glanceRows(
  review: ReviewState,
  analysis: Analysis,
  { score }: RunFacts,
): { label: string; value: string }[] {
  const all = review.course.steps.length;
  const taken = new Set(analysis.taken.filter((t) => t.try === analysis.countedTry).map((t) => t.place)).size;
  const rows: { label: string; value: string }[] = [
    { label: words.taken, value: words.takenOf(taken, all) },
    { label: words.tries, value: words.countedTry(analysis.tries.length, analysis.countedTry) },
  ];
  if (analysis.crosses.length > 0) {
    const inTime = analysis.crosses.filter((c) => c.verdict === 'inTime').length;
    rows.push({ label: words.crossesInTime, value: words.crossCount(inTime, analysis.crosses.length) });
  }
  if (score) rows.push({ label: words.result, value: resultTold(score.of) });
  return rows;
}

function band(analysis: Analysis, mask: Mask): BandPiece[] {
  return analysis.splits.map((s) => {
    const cross = analysis.crosses.find((c) => c.place === s.to);
    return {
      to: s.to,
      seconds: Math.max(0, s.time.value),
      cross: cross ? { words: verdictWords[cross.verdict], verdict: cross.verdict } : null,
      events: analysis.events.filter((e) => e.place === s.to && !isClock(e)).map((e) => eventName(e, mask)),
    };
  });
}

function splitRows(analysis: Analysis, places: Places, { stretches }: RunFacts): SplitRow[] {
  const measured = (to: number, from: number | null) =>
    stretches.findIndex((m) => m.to === to && m.from === from);
  const longest = Math.max(...analysis.splits.map((s) => s.time.value), 0);
  return analysis.splits.map((s, i) => {
    const t = analysis.taken.findIndex((x) => x.place === s.to && x.try === s.try);
    const out = analysis.taken[t]?.out;
    const m = measured(s.to, s.from);
    const { length, speed } = stretches[m] ?? { length: null, speed: null };
    return {
      number: s.to,
      what: places.what(s.to),
      split: figureAt(`splits[${i}].time`, s.time),
      clock: out ? figureAt(`taken[${t}].out.at`, out.at) : null,
      metres: length && figureAt(`line.stretches[${m}].length`, length),
      speed: speed && figureAt(`line.stretches[${m}].speed`, speed),
      share: longest > 0 ? Math.max(0, s.time.value) / longest : 0,
    };
  });
}

function plannedOnly(review: ReviewState, places: Places): Line[] {
  const run = new Set(review.crosses.map((c) => c.plannedId));
  return review.plan.crosses
    .filter((p) => !run.has(p.id))
    .map((p) => [`${crossNamed(p.kind)} at `, ...places.named(p.place)]);
}

/** Drawings on frames that no cross or start line shows already. */
function drawings(context: CardContext): { caption: string; picture: Picture }[] {
  return context.review.drawings.flatMap((d) => {
    const picture = context.pictures.of(
      { markId: d.id, footageId: d.footageId, pts: d.pts },
      words.drawnAlt,
      [],
    );
    return picture ? [{ caption: words.drawnAlt, picture }] : [];
  });
}

function eventLines(analysis: Analysis, places: Places, mask: Mask): EventLine[] {
  return analysis.events
    .map((e, i) => ({ e, i }))
    .filter(({ e }) => !isClock(e))
    .sort((a, b) => (a.e.place ?? Infinity) - (b.e.place ?? Infinity) || a.i - b.i)
    .map(({ e, i }) => ({
      where: e.place === null ? [words.nowhere] : places.named(e.place),
      what: [e.ownLabel === null ? eventName(e, mask) : written(eventName(e, mask))],
      clock: figureAt(`events[${i}].moment.at`, e.moment.at),
      note: e.mark.note.trim() === '' ? [] : [written(mask(e.mark.note.trim()))],
    }));
}
