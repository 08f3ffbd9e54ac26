import { writeReport, type ReportForm } from '../../../src/host/report.ts';
import type { ReportCopy } from '../../../src/report/copies.ts';
import { stillsWanted } from '../../../src/report/stills.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import { cliWords } from '../../../src/words/cli.ts';
import { bookInFile } from '../bookInFile.ts';
import { factsOfFile } from '../factsOfFile.ts';
import type { Output } from '../output.ts';
import { readReviewFile } from '../reviewFile.ts';
import { stillsBeside } from '../stillsBeside.ts';

export interface CopyAsked {
  readonly forms: readonly ReportForm[];
  readonly short: boolean;
  readonly copy: ReportCopy;
}

/** Writes the coaching report of a review file into a folder and prints where it is. */
export async function writeReportOf(
  path: string,
  folder: string,
  { forms, short, copy }: CopyAsked,
  out: Output,
  signal: AbortSignal,
): Promise<void> {
  const document = await readReviewFile(path);
  const state = stateOf(document);
  const analysis = analyse(state, clocksOf(document));
  const asked = {
    state,
    analysis,
    short,
    copy,
    facts: factsOfFile(document, state, analysis),
    clips: document.footage.map(({ id, clip }) => ({
      footageId: id,
      frames: clip.pts.length,
      width: clip.width,
      height: clip.height,
      codec: clip.codec,
    })),
    folder,
    book: bookInFile(state.course),
    stillOf: await stillsBeside(path, document, short ? [] : stillsWanted(state, analysis), out, signal),
    signal,
  };
  for (const { path, bytes } of await writeReport(asked, forms)) out.text(cliWords.wrote(path, bytes));
}
