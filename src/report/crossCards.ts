import type { Analysis, CrossAnalysis, CrossVerdict, Moment } from '../review/analysis.ts';
import type { ReviewState } from '../review/entities.ts';
import type { CrossPart } from '../review/marks.ts';
import { coachingReport as words } from '../words/coachingReport.ts';
import { crossPartWords, cueWords } from '../words/trade.ts';
import { beforeOrAfter, crossNamed, crossSentence, verdictWords, type Sized } from '../words/verdicts.ts';
import { setting } from './analysisDocument.ts';
import type { Mask } from './names.ts';
import { figureAt, lineText, sizedAt, written, type Figure, type Line, type Piece } from './pieces.ts';
import type { Places } from './places.ts';
import { crossMoments, isPictured, type CrossMoment } from './stills.ts';
import type { Sentences } from './ownWords.ts';
import type { RunFacts } from './runFacts.ts';
import type { Picture, Pictures } from './pictures.ts';

/** A moment of a cross: what it is, when, on which frame, and the frame itself where it is at hand. */
export interface MomentCard {
  readonly markId: string;
  readonly part: CrossPart;
  /** Its number on the strip, from 1. */
  readonly n: number;
  readonly what: string;
  /** How long before or after the deadline, where that is what counts; else null. */
  readonly relation: Line | null;
  readonly clock: Figure;
  readonly frame: string;
  readonly note: Line;
  readonly picture: Picture | null;
}

/** Where a moment stands on the strip: its bracket and its dot, in parts of 100 of the width. */
export interface StripMark {
  readonly n: number;
  readonly part: CrossPart;
  readonly left: number;
  readonly width: number;
  readonly dot: number;
}

export interface CrossCard {
  readonly id: string;
  readonly title: Line;
  readonly verdict: CrossVerdict;
  readonly verdictWords: string;
  readonly sentence: Line;
  readonly plan: Line;
  readonly note: Line;
  readonly figures: readonly { readonly label: string; readonly value: Line }[];
  readonly strip: { readonly marks: readonly StripMark[]; readonly flight: readonly [number, number] | null };
  readonly moments: readonly MomentCard[];
}

export interface CardContext {
  readonly review: ReviewState;
  readonly analysis: Analysis;
  readonly places: Places;
  readonly pictures: Pictures;
  readonly mask: Mask;
  readonly sentences: Sentences;
  readonly facts: RunFacts;
  /** Words for a frame: "frame 212", with its clip where there are several. */
  frame(m: Moment): string;
}

/** The crosses of the run, in the order of the analysis. */
export function crossCards(context: CardContext): CrossCard[] {
  return context.analysis.crosses.map((cross, i) => crossCard(context, cross, `crosses[${i}]`));
}

function crossCard(context: CardContext, cross: CrossAnalysis, path: string): CrossCard {
  const { places, mask, review, sentences } = context;
  const edges = places.edges(cross.place);
  const lead = sizedAt(`${path}.lead`, cross.lead);
  const finish = sizedAt(`${path}.finish`, cross.finish);
  const afterCommitted = sizedAt(`${path}.afterCommitted`, cross.afterCommitted);
  const stride = {
    ...figureAt(`${path}.stride`, setting(cross.stride, 's')),
    text: strideText(cross.stride),
  };
  const figures: { label: string; value: Line }[] = [];
  const put = (label: string, figure: Sized<Piece> | null, what: string): void => {
    if (figure) figures.push({ label, value: beforeOrAfter(figure, what) });
  };
  put(words.figures.lead(bare(edges.in)), lead, bare(edges.in));
  put(words.figures.leadFrames, sizedAt(`${path}.leadFrames`, cross.leadFrames), bare(edges.in));
  // A rear cross is judged by its beginning, the others by their beginning and their end.
  if (cross.kind === 'rear') {
    const toCommitted = afterCommitted && { ...afterCommitted, value: -afterCommitted.value };
    put(words.figures.committed, toCommitted, words.commitment);
  } else {
    put(words.figures.finish(bare(edges.out)), finish, bare(edges.out));
    if (cross.kind !== 'leadOutPivot') figures.push({ label: words.figures.stride, value: [stride] });
  }
  figures.push(...priceOf(context.facts, cross.place));
  const note = review.crosses.find((c) => c.id === cross.id)?.note.trim() ?? '';
  const title: Line = [`${crossNamed(cross.kind)} at `, ...places.named(cross.place)];
  const said = crossSentence({
    kind: cross.kind,
    reason: cross.reason,
    open: cross.open,
    manner: places.manner(cross.place),
    lead,
    finish,
    afterCommitted,
    stride,
  });
  const plan = planned(review, cross, mask);
  return {
    id: cross.id,
    title,
    verdict: cross.verdict,
    verdictWords: verdictWords[cross.verdict],
    sentence: sentences.say(`cross:${cross.id}`, lineText(title), said),
    plan: plan.length === 0 ? [] : sentences.say(`planned:${cross.id}`, words.thePlan(lineText(title)), plan),
    note: note === '' ? [] : [written(mask(note))],
    figures,
    strip: strip(cross),
    moments: crossMoments(cross).map((m, at) => momentCard(context, cross, path, m, at + 1)),
  };
}

/** What the way after a cross took over the wanted line, where both were there. */
function priceOf({ stretches }: RunFacts, place: number): { label: string; value: Line }[] {
  const i = stretches.findIndex((s) => s.from === place);
  const over = stretches[i]?.over;
  if (!over) return [];
  const path = `line.stretches[${i}].over`;
  const value = [figureAt(`${path}.seconds`, over.seconds), ', ', figureAt(`${path}.metres`, over.metres)];
  return [{ label: words.figures.price(place, place + 1), value }];
}

const bare = (edge: string): string => edge.replace(/^the /, '');
const strideText = (seconds: number): string => `${Number(seconds.toFixed(2))} s`;

function planned(review: ReviewState, cross: CrossAnalysis, mask: Mask): Line {
  const plan = review.plan.crosses.find((p) => p.id === cross.plannedId);
  if (!plan) return review.plan.crosses.length > 0 ? [words.unplanned] : [];
  const line: (string | ReturnType<typeof written>)[] = [words.planned(plan.kind, plan.secondChoice)];
  if (plan.reason.trim() !== '') line.push(' ', written(mask(plan.reason.trim())));
  if (plan.kind !== cross.kind) {
    line.push(` ${plan.secondChoice === cross.kind ? words.secondChoiceRun : words.otherKindRun}`);
  }
  return line;
}

function momentCard(
  { places, pictures, mask, frame, review }: CardContext,
  cross: CrossAnalysis,
  path: string,
  m: CrossMoment,
  n: number,
): MomentCard {
  const cue = m.cueIndex === null ? undefined : cross.cues[m.cueIndex];
  const edges = places.edges(cross.place);
  const named: Record<CrossPart, string> = {
    ...crossPartWords,
    takeOff: bare(edges.in),
    landing: bare(edges.out),
  };
  const what = cue ? (cue.cue ? words.cue(cueWords[cue.cue]) : words.cueUnnamed) : named[m.part];
  const at = m.cueIndex === null ? `${path}.parts.${m.part}` : `${path}.cues[${m.cueIndex}].begins`;
  const lead = cue ? sizedAt(`${path}.cues[${m.cueIndex}].lead`, cue.lead) : null;
  const judged = m.part === 'cueEnds' && cross.kind !== 'rear';
  const finish = judged ? sizedAt(`${path}.finish`, cross.finish) : null;
  const relation = lead
    ? beforeOrAfter(lead, bare(edges.in))
    : finish
      ? beforeOrAfter(finish, bare(edges.out))
      : null;
  const note = review.marks.find((x) => x.id === m.moment.markId)?.note.trim() ?? '';
  return {
    markId: m.moment.markId,
    part: m.part,
    n,
    what,
    relation,
    clock: figureAt(`${at}.at`, m.moment.at),
    frame: frame(m.moment),
    note: note === '' ? [] : [written(mask(note))],
    picture: isPictured(cross, m)
      ? pictures.of(m.moment, words.stillOf(what, frame(m.moment), words.crossAt(cross.kind, cross.place)), [
          'dog',
          'handler',
        ])
      : null,
  };
}

/** Least distance of two dots on the strip, in parts of 100: they stay readable 300 pixels wide. */
const dotGap = 9;

function strip(cross: CrossAnalysis): CrossCard['strip'] {
  const moments = crossMoments(cross);
  const from = Math.min(...moments.map((m) => m.moment.bracket.from));
  const to = Math.max(...moments.map((m) => m.moment.bracket.to));
  if (moments.length < 2 || !(to > from)) return { marks: [], flight: null };
  const x = (t: number): number => 4 + (92 * (t - from)) / (to - from);
  const marks = moments.map((m, i) => {
    const { bracket } = m.moment;
    return {
      n: i + 1,
      part: m.part,
      left: x(bracket.from),
      width: Math.max(0.6, x(bracket.to) - x(bracket.from)),
      dot: x((bracket.from + bracket.to) / 2),
    };
  });
  return { marks: spread(marks), flight: flight(cross, x) };
}

function flight(cross: CrossAnalysis, x: (t: number) => number): readonly [number, number] | null {
  const { takeOff, landing } = cross.parts;
  if (!takeOff || !landing) return null;
  const middle = (m: Moment): number => x((m.bracket.from + m.bracket.to) / 2);
  const [a, b] = [middle(takeOff), middle(landing)];
  return b > a ? [a, b] : null;
}

/**
 * Moves dots apart, in order, as little as can be: dots that would touch form a cluster about their common middle
 * (pooling of adjacent violators), and nothing leaves the strip.
 */
function spread(marks: readonly StripMark[]): StripMark[] {
  const gap = Math.min(dotGap, 92 / Math.max(1, marks.length - 1));
  const clusters: { sum: number; count: number }[] = [];
  marks.forEach((m, i) => {
    let cluster = { sum: m.dot - i * gap, count: 1 };
    for (let before = clusters.at(-1); before; before = clusters.at(-1)) {
      if (before.sum / before.count <= cluster.sum / cluster.count) break;
      clusters.pop();
      cluster = { sum: before.sum + cluster.sum, count: before.count + cluster.count };
    }
    clusters.push(cluster);
  });
  const starts = clusters.flatMap((c) => Array.from({ length: c.count }, () => c.sum / c.count));
  const last = marks.length - 1;
  return marks.map((m, i) => {
    const start = Math.min(96 - last * gap, Math.max(4, starts[i] ?? 4));
    return { ...m, dot: start + i * gap };
  });
}
