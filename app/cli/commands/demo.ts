import { createHash, randomUUID } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { copyFile, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { demoFolder } from '../../../src/host/demo.ts';
import { makeFolder } from '../../../src/host/makeFolder.ts';
import { writeWhole, writingTrouble } from '../../../src/host/wholeFile.ts';
import { cliWords } from '../../../src/words/cli.ts';
import type { Output } from '../output.ts';
import { BadInput } from '../trouble.ts';

const truthEnding = '.truth.json';
/** All that the demo's films were drawn from, joined: the course, and each film's truth under its file name. */
const truthName = 'truth.json';

/**
 * Copies the demo into a folder: review files and clips, each whole or not at all, and the films' truth as one file.
 * A file that is there already with the same content is left; one with other content is never overwritten, and
 * then nothing is copied.
 */
export async function copyDemo(folder: string, out: Output, from = demoFolder()): Promise<void> {
  const names = from === null ? [] : await plainNames(from);
  if (from === null || !names.some((n) => n.endsWith('.walkback.json'))) throw new BadInput(cliWords.noDemo);
  const copied = names.filter((n) => !n.endsWith(truthEnding));
  const truth = await joinedTruth(
    from,
    names.filter((n) => n.endsWith(truthEnding)),
  );
  const missing: string[] = [];
  for (const name of copied) {
    const to = join(folder, name);
    if (await isFree(to, () => hashOf(join(from, name)))) missing.push(name);
  }
  const truthMissing = await isFree(join(folder, truthName), async () =>
    createHash('sha256').update(truth).digest('hex'),
  );
  for (const name of missing) await copyWhole(join(from, name), join(folder, name), folder);
  if (truthMissing) await writeWhole(join(folder, truthName), truth);
  const all = [...copied, truthName].sort();
  out.text([...all.map((n) => join(folder, n)), cliWords.copied(all.length, folder)].join('\n'));
}

async function plainNames(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  return entries
    .filter((e) => e.isFile() && !e.name.startsWith('.'))
    .map((e) => e.name)
    .sort();
}

async function joinedTruth(from: string, names: readonly string[]): Promise<string> {
  const truth: { format: string; version: number; course: unknown; runs: Record<string, unknown> } = {
    format: 'walkback.demo-truth',
    version: 1,
    course: null,
    runs: {},
  };
  for (const name of names) {
    const value: unknown = JSON.parse(await readFile(join(from, name), 'utf8'));
    const film = typeof value === 'object' && value !== null && 'film' in value ? value.film : undefined;
    if (typeof film === 'string') truth.runs[film] = value;
    else truth.course = value;
  }
  return `${JSON.stringify(truth)}\n`;
}

/** True where nothing is there, false where the same content is. Throws BadInput where it is another file. */
async function isFree(path: string, hash: () => Promise<string>): Promise<boolean> {
  const there = await stat(path).catch(() => null);
  if (there === null) return true;
  if (there.isFile() && (await hashOf(path)) === (await hash())) return false;
  throw new BadInput(cliWords.inTheWay(path));
}

async function copyWhole(from: string, to: string, folder: string): Promise<void> {
  const making = join(folder, `.${randomUUID()}.part`);
  try {
    await makeFolder(folder);
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

async function hashOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path)) hash.update(chunk as Uint8Array);
  return hash.digest('hex');
}
