import type { obstacleAt } from '../../../../src/course/course.ts';
import type { CrossAnalysis, Moment } from '../../../../src/review/analysis.ts';
import type { CrossPart } from '../../../../src/review/marks.ts';
import { signedFigure } from '../../../../src/words/figures.ts';
import { crossPartWord, sentenceCase } from '../../../../src/words/review.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { cueWords } from '../../../../src/words/trade.ts';

export type Kind = NonNullable<ReturnType<typeof obstacleAt>>['kind'];

/** A moment of a cross as it is shown: its word, its frame, and for a cue how long before the deadline it came. */
export interface ShownMoment {
  readonly what: string;
  readonly moment: Moment;
  readonly lead: string | null;
}

/** The moments of a cross in the order in which they happened. */
export function momentsOf(cross: CrossAnalysis, kind: Kind): ShownMoment[] {
  const cues = cross.cues.map((c): ShownMoment => ({
    what: sentenceCase(c.cue === null ? crossPartWord('cueBegins', kind) : cueWords[c.cue]),
    moment: c.begins,
    lead: c.lead && signedFigure(c.lead),
  }));
  const parts = (['cueEnds', 'committed', 'takeOff', 'landing'] as const).flatMap((part): ShownMoment[] => {
    const moment = cross.parts[part];
    return moment ? [{ what: sentenceCase(shortWord(part, kind)), moment, lead: null }] : [];
  });
  return [...cues, ...parts].sort((a, b) => a.moment.bracket.from - b.moment.bracket.from);
}

/** Under a small picture there is room for one word. */
function shortWord(part: CrossPart, kind: Kind): string {
  if (part === 'cueEnds') return reviewScreenWords.keys.finished;
  if (part === 'committed') return reviewScreenWords.keys.committed;
  return crossPartWord(part, kind);
}
