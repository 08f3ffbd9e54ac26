import type { ReviewDocument } from '../../src/review/document.ts';
import { largestDocument, readDocument } from '../../src/review/readDocument.ts';
import { cliWords } from '../../src/words/cli.ts';
import { problemWords } from '../../src/words/problems.ts';
import { readTextFile } from './textFile.ts';
import { BadInput } from './trouble.ts';

/**
 * Reads a review file from the disk.
 * @throws BadInput on one line: no such file, a folder, too large, not text, or what readDocument finds wrong
 */
export async function readReviewFile(path: string): Promise<ReviewDocument> {
  const text = await readTextFile(path, {
    largest: largestDocument,
    tooLarge: (size) => cliWords.badReview(path, problemWords.tooLarge(size, largestDocument), 0),
    notText: cliWords.notText(path),
  });
  const reading = readDocument(text);
  if (reading.ok) return reading.document;
  const [problem = '', ...more] = reading.problems;
  throw new BadInput(
    reading.code === 'tooNew'
      ? cliWords.tooNewReview(path, problem)
      : cliWords.badReview(path, problem, more.length),
  );
}
