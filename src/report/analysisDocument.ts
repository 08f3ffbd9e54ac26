import type { Analysis, CrossAnalysis, Moment, StartTry, Taken } from '../review/analysis.ts';
import type { ReviewState } from '../review/entities.ts';
import type { Quantity } from '../time/quantity.ts';
import { coachingReport as words } from '../words/coachingReport.ts';
import { stayWords, verdictWords } from '../words/verdicts.ts';
import { pawsDocument } from './paws.ts';
import { resultDocument } from './result.ts';
import { noFacts, type RunFacts } from './runFacts.ts';

export const analysisFormat = 'walkback.analysis';
export const analysisVersion = 1;

/**
 * The analysis as one JSON value that stands on its own: format and version inside, every figure as
 * `{value, plusMinus, unit}`, moments with their footage, frame and bracket (run seconds). Lists keep the order of
 * `Analysis`, so that "splits[3].time" names the same figure here and in the report.
 */
export function analysisDocument(
  review: ReviewState,
  analysis: Analysis,
  { score, line, stretches, paws }: RunFacts = noFacts,
) {
  const { header } = review;
  return {
    format: analysisFormat,
    version: analysisVersion,
    review: {
      id: review.id,
      title: header.title,
      dog: header.dog,
      handler: header.handler,
      day: header.day,
      runKind: header.runKind,
      stage: header.stage,
      obstacles: review.course.steps.length,
    },
    tries: analysis.tries,
    countedTry: analysis.countedTry,
    clock: analysis.clock && {
      ...analysis.clock,
      start: momentTold(analysis.clock.start),
      stop: momentTold(analysis.clock.stop),
      words: words.clockBy(analysis.clock),
    },
    taken: analysis.taken.map(takenTold),
    splits: analysis.splits,
    crosses: analysis.crosses.map(crossTold),
    startLine: analysis.startLine.map(startTold),
    events: analysis.events.map((e) => ({
      markId: e.mark.id,
      event: e.mark.event,
      refusal: e.mark.refusal ?? null,
      label: e.ownLabel,
      place: e.place,
      note: e.mark.note,
      moment: momentTold(e.moment),
    })),
    score: score && resultDocument(score.book, score.of),
    line: line && {
      from: line.from,
      to: line.to,
      gaps: line.gaps,
      stretches: stretches.map(({ from, to, time, length, speed, over, gap }) => ({
        from,
        to,
        time,
        length,
        speed,
        over,
        gap,
      })),
    },
    paws: pawsDocument(paws),
    warnings: analysis.warnings.map((w) => ({ ...w, words: words.warning(w) })),
    footage: review.footage.map(({ id, name }) => ({ id, name })),
  };
}

function momentTold(m: Moment) {
  return {
    markId: m.markId,
    footageId: m.footageId,
    pts: m.pts,
    frame: m.frame,
    from: m.bracket.from,
    to: m.bracket.to,
    at: m.at,
  };
}

function takenTold(t: Taken) {
  return {
    place: t.place,
    try: t.try,
    obstacleId: t.obstacleId,
    kind: t.kind,
    nickname: t.nickname,
    single: t.single,
    in: t.in && momentTold(t.in),
    out: t.out && momentTold(t.out),
    on: t.on,
  };
}

function crossTold(c: CrossAnalysis) {
  return {
    ...c,
    words: verdictWords[c.verdict],
    stride: setting(c.stride, 's'),
    cues: c.cues.map((cue) => ({ ...cue, begins: momentTold(cue.begins) })),
    parts: Object.fromEntries(Object.entries(c.parts).map(([part, m]) => [part, momentTold(m)])),
    deadline: c.deadline && momentTold(c.deadline),
  };
}

function startTold(s: StartTry) {
  return {
    ...s,
    words: stayWords[s.verdict],
    fakes: setting(s.fakes, '1'),
    shifts: setting(s.shifts, '1'),
    moments: s.moments.map(({ part, moment }) => ({ part, moment: momentTold(moment) })),
  };
}

/** A setting or a count: known exactly. */
export function setting(value: number, unit: Quantity['unit']): Quantity {
  return { value, plusMinus: 0, unit };
}
