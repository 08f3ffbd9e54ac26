import { stat } from 'node:fs/promises';
import { cliWords } from '../../src/words/cli.ts';
import { BadInput } from './trouble.ts';

/**
 * Checks that there is a plain file: pipes and devices would be waited for without end.
 * @returns its size in bytes
 * @throws BadInput
 */
export async function checkPlainFile(path: string): Promise<number> {
  const there = await stat(path).catch((error: unknown) => {
    throw fileTrouble(path, error);
  });
  if (there.isDirectory()) throw new BadInput(cliWords.isFolder(path));
  if (!there.isFile()) throw new BadInput(cliWords.notAFile(path));
  return there.size;
}

/** The reader's form of an error that came up while a file was read. */
export function fileTrouble(path: string, error: unknown): BadInput {
  const code = error instanceof Error && 'code' in error ? error.code : '';
  if (code === 'ENOENT' || code === 'ENOTDIR') return new BadInput(cliWords.noSuchFile(path));
  if (code === 'EACCES' || code === 'EPERM') return new BadInput(cliWords.notReadable(path));
  if (code === 'EISDIR') return new BadInput(cliWords.isFolder(path));
  return new BadInput(cliWords.unreadable(path, error instanceof Error ? error.message : String(error)));
}
