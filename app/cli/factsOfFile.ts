import { runFacts, type RunFacts } from '../../src/report/runFacts.ts';
import type { Analysis } from '../../src/review/analysis.ts';
import type { ReviewDocument } from '../../src/review/document.ts';
import type { ReviewState } from '../../src/review/entities.ts';
import { clocksOf } from '../../src/review/readDocument.ts';
import { bookInFile } from './bookInFile.ts';

/** Score and measured line of a review in a file. */
export const factsOfFile = (document: ReviewDocument, review: ReviewState, analysis: Analysis): RunFacts =>
  runFacts(review, analysis, {
    clocks: clocksOf(document),
    book: bookInFile(review.course),
    pictures: new Map(document.footage.map(({ id, clip: { width, height } }) => [id, { width, height }])),
  });
