import { inUnits } from '../course/rules/hundredths.ts';
import type { RunScore } from '../review/runScore.ts';
import { scoreWords } from '../words/score.ts';
import { scorePartWords } from '../words/scorePart.ts';

/** The score of a run in words, at both ends of its time's plus or minus where they differ. */
export function resultTold({ score, between }: RunScore): string {
  const told = scoreWords.told(score);
  return between ? `${told} ${scorePartWords.between(between.fastest, between.slowest)}` : told;
}

/** The score of a run as data: faults in units. */
export function resultDocument(book: string, of: RunScore) {
  const { score } = of;
  return {
    book,
    unofficial: true,
    words: resultTold(of),
    outcome: score.outcome,
    refusals: score.refusals,
    faults: {
      course: inUnits(score.courseFaults),
      time: score.outcome === 'scored' ? inUnits(score.timeFaults) : null,
      total: score.outcome === 'scored' ? inUnits(score.total) : null,
    },
  };
}
