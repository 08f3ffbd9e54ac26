import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { pipeline } from 'node:stream/promises';
import { footageWords } from '../words/footage.ts';
import { cancelled, fileTrouble, FootageError, shownName } from './trouble.ts';

/**
 * SHA-256 of a file's content in small hexadecimal digits, read as a stream.
 * Throws a FootageError: notFound, badInput (a folder), unreadable, cancelled.
 */
export async function contentHash(
  file: string,
  options: { signal?: AbortSignal; onProgress?: (bytes: number, of: number) => void } = {},
): Promise<string> {
  const hash = createHash('sha256');
  try {
    const found = await stat(file);
    if (!found.isFile()) throw new FootageError('badInput', footageWords.notAFile(shownName(file)));
    let done = 0;
    await pipeline(
      createReadStream(file, { highWaterMark: 1024 * 1024 }),
      async (chunks: AsyncIterable<Buffer>) => {
        for await (const chunk of chunks) {
          hash.update(chunk);
          done += chunk.length;
          options.onProgress?.(done, found.size);
        }
      },
      options.signal ? { signal: options.signal } : {},
    );
  } catch (error) {
    if (options.signal?.aborted) throw cancelled(file);
    throw fileTrouble(file, error);
  }
  return hash.digest('hex');
}
