import { analysisDocument } from '../../../src/report/analysisDocument.ts';
import { buildReport } from '../../../src/report/model.ts';
import { reportText } from '../../../src/report/plainText.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import type { Output } from '../output.ts';
import { readReviewFile } from '../reviewFile.ts';

/** Prints the analysis of a review file, as JSON or as text. */
export async function printAnalysis(path: string, json: boolean, out: Output): Promise<void> {
  const document = await readReviewFile(path);
  const review = stateOf(document);
  const analysis = analyse(review, clocksOf(document));
  if (json) out.json(analysisDocument(review, analysis));
  else out.text(reportText(buildReport({ review, analysis, clips: [], stills: new Map() })));
}
