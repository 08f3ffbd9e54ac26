import { open } from 'node:fs/promises';
import { checkPlainFile, fileTrouble } from './plainFile.ts';
import { BadInput } from './trouble.ts';

/** How much of a text file is read, and what the reader is told where it cannot be taken. */
export interface TextFileRules {
  /** Bytes. */
  readonly largest: number;
  readonly tooLarge: (size: number) => string;
  readonly notText: string;
}

/**
 * The text of a plain file, refused by its size before it is read.
 * @throws BadInput on one line: no such file, a folder, too large, not UTF-8
 */
export async function readTextFile(path: string, rules: TextFileRules): Promise<string> {
  const bytes = await readPlainFile(path, rules);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new BadInput(rules.notText);
  }
}

async function readPlainFile(path: string, { largest, tooLarge }: TextFileRules): Promise<Uint8Array> {
  await checkPlainFile(path);
  const file = await open(path, 'r').catch((error: unknown) => {
    throw fileTrouble(path, error);
  });
  try {
    const { size } = await file.stat();
    if (size > largest) throw new BadInput(tooLarge(size));
    return await file.readFile();
  } catch (error) {
    throw error instanceof BadInput ? error : fileTrouble(path, error);
  } finally {
    await file.close();
  }
}
