import { open } from 'node:fs/promises';
import type { ReviewDocument } from '../../src/review/document.ts';
import { largestDocument, readDocument } from '../../src/review/readDocument.ts';
import { cliWords } from '../../src/words/cli.ts';
import { problemWords } from '../../src/words/problems.ts';
import { checkPlainFile, fileTrouble } from './plainFile.ts';
import { BadInput } from './trouble.ts';

/**
 * Reads a review file from the disk.
 * @throws BadInput on one line: no such file, a folder, too large, not text, or what readDocument finds wrong
 */
export async function readReviewFile(path: string): Promise<ReviewDocument> {
  const bytes = await readPlainFile(path, largestDocument, (size) =>
    cliWords.badReview(path, problemWords.tooLarge(size, largestDocument), 0),
  );
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new BadInput(cliWords.notText(path));
  }
  const reading = readDocument(text);
  if (reading.ok) return reading.document;
  const [problem = '', ...more] = reading.problems;
  throw new BadInput(
    reading.code === 'tooNew'
      ? cliWords.tooNewReview(path, problem)
      : cliWords.badReview(path, problem, more.length),
  );
}

/** The bytes of a plain file, refused by its size before it is read. */
async function readPlainFile(
  path: string,
  most: number,
  tooLarge: (size: number) => string,
): Promise<Uint8Array> {
  await checkPlainFile(path);
  const file = await open(path, 'r').catch((error: unknown) => {
    throw fileTrouble(path, error);
  });
  try {
    const { size } = await file.stat();
    if (size > most) throw new BadInput(tooLarge(size));
    return await file.readFile();
  } catch (error) {
    throw error instanceof BadInput ? error : fileTrouble(path, error);
  } finally {
    await file.close();
  }
}
