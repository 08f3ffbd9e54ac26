import { analysisDocument } from '../../../src/report/analysisDocument.ts';
import { buildReport } from '../../../src/report/model.ts';
import { reportText } from '../../../src/report/plainText.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import { factsOfFile } from '../factsOfFile.ts';
import type { Output } from '../output.ts';
import { readReviewFile } from '../reviewFile.ts';

/** Prints the analysis of a review file, as JSON or as text. */
export async function printAnalysis(path: string, json: boolean, out: Output): Promise<void> {
  const document = await readReviewFile(path);
  const review = stateOf(document);
  const analysis = analyse(review, clocksOf(document));
  const facts = factsOfFile(document, review, analysis);
  if (json) out.json(analysisDocument(review, analysis, facts));
  else out.text(reportText(buildReport({ review, analysis, facts, clips: [], stills: new Map() })));
}
