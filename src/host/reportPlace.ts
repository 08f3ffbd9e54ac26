import { open, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { escaped } from '../report/escape.ts';
import { reviewMeta } from '../report/html.ts';
import { keywordOf } from './reportPdf/report.ts';

/**
 * Where in a folder the report of a review goes: under its name, in place of an earlier report of the same review.
 * A file of that name that is anything else is left alone, and the report gets a number.
 */
export async function freePath(folder: string, name: string, reviewId: string): Promise<string> {
  const [, stem = name, ending = ''] = /^(.*)(\.[a-z0-9]+)$/.exec(name) ?? [];
  for (let n = 1; ; n++) {
    const path = join(folder, n === 1 ? name : `${stem}-${n}${ending}`);
    if (await mayReplace(path, reviewId)) return path;
  }
}

/** True where nothing is there, or an earlier report of this review. What else stands in the way, writing tells. */
async function mayReplace(path: string, reviewId: string): Promise<boolean> {
  const there = await stat(path).catch(() => null);
  if (there === null) return true;
  if (!there.isFile()) return false;
  const text = await beginning(path, path.endsWith('.pdf') ? there.size : headBytes).catch(() => null);
  if (text === null) return false;
  return (
    text.includes(`name="${reviewMeta}" content="${escaped(reviewId)}"`) ||
    text.includes(`(${keywordOf(reviewId)})`)
  );
}

/** An HTML report says whose it is within so many bytes; a PDF says it anywhere. */
const headBytes = 4096;

async function beginning(path: string, bytes: number): Promise<string> {
  const file = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(bytes), 0, bytes, 0);
    return buffer.toString('latin1', 0, bytesRead);
  } finally {
    await file.close();
  }
}
