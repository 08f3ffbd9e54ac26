import { readdir, stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { shownKinds } from '../fileKinds.ts';
import type { FileEntry } from '../contract/shapes.ts';
import type { CallHandler } from '../desk.ts';
import { trouble } from '../troubles.ts';

/** A folder with more entries than this is shown by its first ones. */
const mostEntries = 2000;

export const filesRoots: CallHandler<'files.roots'> = async (desk) => ({
  folders: (await desk.allowed.roots()).map((path) => ({
    name: basename(path) || path,
    path,
    folder: true,
    bytes: null,
  })),
});

/** Folders first, then files that Walkback can use, each in the order of their names. Hidden ones are left out. */
export const filesList: CallHandler<'files.list'> = async (desk, { folder }) => {
  const real = await desk.allowed.resolve(folder);
  if (!(await stat(real)).isDirectory()) throw trouble('badInput', hostTroubles.notAFolder(folder));
  const names = await readdir(real).catch(() => {
    throw trouble('unreadable', hostTroubles.unreadableFile(folder));
  });
  const shown = names.filter((n) => !n.startsWith('.')).sort((a, b) => a.localeCompare(b, 'en'));
  const entries: FileEntry[] = [];
  for (const name of shown) {
    if (entries.length >= mostEntries) break;
    const path = join(real, name);
    // A link that leads out of the allowed folders is left out like any other file that is not offered.
    const target = await desk.allowed.resolve(path).catch(() => null);
    const found = target === null ? null : await stat(target).catch(() => null);
    if (found?.isDirectory()) entries.push({ name, path, folder: true, bytes: null });
    else if (found?.isFile() && shownKinds.has(extname(name).toLowerCase())) {
      entries.push({ name, path, folder: false, bytes: found.size });
    }
  }
  return { entries: entries.sort((a, b) => Number(b.folder) - Number(a.folder)) };
};
