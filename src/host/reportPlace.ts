import { open, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { escaped } from '../report/escape.ts';
import { reviewMeta } from '../report/html.ts';

/**
 * Where in a folder the report of a review goes: under its name, in place of an earlier report of the same review.
 * A file of that name that is anything else is left alone, and the report gets a number.
 */
export async function freePath(folder: string, name: string, reviewId: string): Promise<string> {
  const stem = name.replace(/\.html$/, '');
  for (let n = 1; ; n++) {
    const path = join(folder, n === 1 ? name : `${stem}-${n}.html`);
    if (await mayReplace(path, reviewId)) return path;
  }
}

/** True where nothing is there, or an earlier report of this review. What else stands in the way, writing tells. */
async function mayReplace(path: string, reviewId: string): Promise<boolean> {
  const there = await stat(path).catch(() => null);
  if (there === null) return true;
  if (!there.isFile()) return false;
  const file = await open(path, 'r').catch(() => null);
  if (file === null) return false;
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(4096), 0, 4096, 0);
    const head = buffer.toString('utf8', 0, bytesRead);
    return head.includes(`name="${reviewMeta}" content="${escaped(reviewId)}"`);
  } finally {
    await file.close();
  }
}
