import { copyFile, mkdir, readdir, rename, rm, stat, open } from 'node:fs/promises';
import { createHash, randomUUID } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { join } from 'node:path';
import { writingTrouble } from '../../../src/host/wholeFile.ts';
import { cliWords } from '../../../src/words/cli.ts';
import type { Output } from '../output.ts';
import { BadInput } from '../trouble.ts';

/** Where the demo lies in this copy of the program. */
export const demoFolder = join(import.meta.dirname, '../../../fixtures/demo');

/**
 * Copies the demo into a folder: every file whole or not at all. A file that is there already with the same
 * content is left; one with other content is never overwritten, and then nothing is copied.
 */
export async function copyDemo(folder: string, out: Output, from = demoFolder): Promise<void> {
  const names = (await readdir(from, { withFileTypes: true }).catch(() => []))
    .filter((e) => e.isFile() && !e.name.startsWith('.'))
    .map((e) => e.name)
    .sort();
  if (names.length === 0) throw new BadInput(cliWords.noDemo(from));
  const missing: string[] = [];
  for (const name of names) {
    const to = join(folder, name);
    const there = await stat(to).catch(() => null);
    if (there === null) missing.push(name);
    else if (!there.isFile() || !(await sameContent(join(from, name), to)))
      throw new BadInput(cliWords.inTheWay(to));
  }
  for (const name of missing) await copyWhole(join(from, name), join(folder, name), folder);
  out.text([...names.map((n) => join(folder, n)), cliWords.copied(names.length, folder)].join('\n'));
}

async function copyWhole(from: string, to: string, folder: string): Promise<void> {
  const making = join(folder, `.${randomUUID()}.part`);
  try {
    await mkdir(folder, { recursive: true });
    await copyFile(from, making);
    const file = await open(making, 'r+');
    try {
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(making, to);
  } catch (error) {
    throw writingTrouble(to, error);
  } finally {
    await rm(making, { force: true }).catch(() => undefined);
  }
}

async function sameContent(a: string, b: string): Promise<boolean> {
  const [one, other] = await Promise.all([stat(a), stat(b)]);
  return one.size === other.size && (await hashOf(a)) === (await hashOf(b));
}

async function hashOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path)) hash.update(chunk as Uint8Array);
  return hash.digest('hex');
}
