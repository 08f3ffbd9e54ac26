import { join } from 'node:path';
import { writeWhole } from '../../../src/host/wholeFile.ts';
import { dataFiles, dataFolder } from '../../../src/report/data/files.ts';
import { analyse } from '../../../src/review/analyse.ts';
import { clocksOf, stateOf } from '../../../src/review/readDocument.ts';
import { cliWords } from '../../../src/words/cli.ts';
import { factsOfFile } from '../factsOfFile.ts';
import type { Output } from '../output.ts';
import { readReviewFile } from '../reviewFile.ts';

/** Writes what a review file says as tables, captions and JSON into a folder of its own, and prints where each file is. */
export async function writeDataOf(path: string, folder: string, out: Output): Promise<void> {
  const document = await readReviewFile(path);
  const review = stateOf(document);
  const clocks = clocksOf(document);
  const place = join(folder, dataFolder(review));
  const analysis = analyse(review, clocks);
  const facts = factsOfFile(document, review, analysis);
  for (const { name, text } of dataFiles(review, analysis, { clocks, facts })) {
    const file = join(place, name);
    out.text(cliWords.wrote(file, await writeWhole(file, text)));
  }
}
