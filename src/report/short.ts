import { coachingReport as words } from '../words/coachingReport.ts';
import type { ReportModel } from './model.ts';

/** A report cut to what fits on one page. */
export interface ShortReport extends ReportModel {
  /** Crosses that only the full report tells. */
  readonly moreCrosses: number;
}

/** As much as one page holds beside a map (ours). */
const most = {
  facts: 3,
  crosses: 6,
  tries: 3,
  wentWell: 420,
  toTrain: 640,
  title: 120,
  nickname: 60,
} as const;

/** The same report in short. Crosses that were not in time come before those that were, where not all of them fit. */
export function shortOf(r: ReportModel): ShortReport {
  const needed = r.crosses.toSorted((a, b) => rank(a.verdict) - rank(b.verdict)).slice(0, most.crosses);
  const crosses = r.crosses.filter((c) => needed.includes(c));
  const { coach, facts } = r.wentWell;
  return {
    ...r,
    wentWell: { coach: coach && cutShort(coach, most.wentWell), facts: facts.slice(0, most.facts) },
    crosses,
    moreCrosses: r.crosses.length - crosses.length,
    // The tries told last are the ones that counted.
    startLine: r.startLine.slice(-most.tries),
    toTrain: {
      coach: r.toTrain.coach && cutShort(r.toTrain.coach, most.toTrain),
      items: r.toTrain.items.map((i) => ({
        ...i,
        exercise: i.exercise && { ...i.exercise, how: cutShort(i.exercise.how, most.toTrain / 2) },
      })),
    },
    splits: [],
    plannedOnly: [],
    drawings: [],
    events: [],
    notes: null,
    smallPrint: { ...r.smallPrint, lines: [words.unofficial, words.wide], clips: [], doubts: [] },
  };
}

const rank = (verdict: ReportModel['crosses'][number]['verdict']): number =>
  verdict === 'late' || verdict === 'tooEarly' ? 0 : verdict === 'inTime' || verdict === 'tight' ? 1 : 2;

/** A text at its last whole sentence, else its last whole word, within a number of characters. */
export function cutShort(text: string, length: number): string {
  const letters = [...text];
  if (letters.length <= length) return text;
  const part = letters.slice(0, length).join('');
  const sentence = /^[\s\S]*[.!?](?=\s)/u.exec(part)?.[0];
  if (sentence && sentence.length > part.length / 2) return `${sentence} …`;
  return `${part.replace(/\s+\S*$/u, '')} …`;
}
