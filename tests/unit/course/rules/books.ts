import { RuleBook, type RuleBookInput } from '../../../../src/course/rules/book.ts';
import type { JudgedRefusal } from '../../../../src/course/refusals.ts';
import { hundredths } from '../../../../src/course/rules/hundredths.ts';
import {
  scoreRun,
  type RunToScore,
  type Score,
  type ScoreEvent,
} from '../../../../src/course/rules/score.ts';

/** A source as somebody writes it who has a book of her own. */
export const ours = { text: 'our own sheet' };

/** The least that is a rule book, with more on top. */
export const bookInput = (more: Partial<RuleBookInput> = {}): RuleBookInput => ({
  format: 'walkback.rules',
  version: 1,
  id: 'ours',
  name: 'Our evening',
  ...more,
});

export const book = (more: Partial<RuleBookInput> = {}): RuleBook => RuleBook.parse(bookInput(more));

export const knockDowns = (n: number): ScoreEvent[] =>
  Array.from({ length: n }, () => ({ kind: 'knockDown' }));
export const refusals = (...how: JudgedRefusal[]): ScoreEvent[] =>
  how.map((h) => ({ kind: 'refusal', how: h }));

/** A trial run of 65.00 s course time, times in seconds. */
export function score(
  of: RuleBook,
  run: Partial<Omit<RunToScore, 'time' | 'standardTime' | 'maximumTime'>> & {
    time?: number | null;
    standard?: number | null;
    maximum?: number | null;
  },
): Score {
  const { time = 60, standard = 65, maximum = 130, ...rest } = run;
  const read = (s: number | null) => (s === null ? null : hundredths(s));
  return scoreRun(of, {
    run: 'trial',
    events: [],
    ...rest,
    time: read(time),
    standardTime: read(standard),
    maximumTime: read(maximum),
  });
}

/** The score of a run that must have come through. */
export function scored(
  of: RuleBook,
  run: Parameters<typeof score>[1],
): Extract<Score, { outcome: 'scored' }> {
  const s = score(of, run);
  if (s.outcome !== 'scored') throw new Error(`not scored: ${JSON.stringify(s)}`);
  return s;
}
