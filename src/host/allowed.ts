import { realpath, stat } from 'node:fs/promises';
import { isAbsolute, relative, sep } from 'node:path';
import { hostTroubles } from '../words/hostTroubles.ts';
import { trouble } from './troubles.ts';

/** Which files a window may name. */
export interface Allowed {
  /** True where paths come from the user's own dialog or command line, and any may be named. */
  readonly trustsPaths: boolean;
  /** Folders that may be listed, as they really lie on the disk. Those that are not there are left out. */
  roots(): Promise<string[]>;
  /** Where a path really leads, links followed. Throws `usage`, `notFound`, or `badInput` where that is outside. */
  resolve(path: string): Promise<string>;
}

/**
 * `folders` gives the allowed folders as they are set now. Symbolic links are followed before the check, so that a
 * link inside an allowed folder opens no way out of it.
 */
export function makeAllowed(trustsPaths: boolean, folders: () => readonly string[]): Allowed {
  const roots = async (): Promise<string[]> => {
    const found = await Promise.all(
      folders().map(async (folder) => {
        const real = await realpath(folder).catch(() => null);
        return real !== null && (await stat(real)).isDirectory() ? real : null;
      }),
    );
    return [...new Set(found.filter((f) => f !== null))];
  };
  return {
    trustsPaths,
    roots,
    async resolve(path) {
      if (!isAbsolute(path) || path.includes('\0'))
        throw trouble('badInput', hostTroubles.pathNotAbsolute(path));
      // Asked before the disk is looked at in vain: what lies outside is not even told to be there or not.
      const real = await realpath(path).catch(() => null);
      if (!trustsPaths) {
        const among = await roots();
        if (!among.some((root) => isInside(root, real ?? path))) {
          throw trouble('badInput', hostTroubles.outsideAllowed(path));
        }
      }
      if (real === null) throw trouble('notFound', hostTroubles.notThere(path));
      return real;
    },
  };
}

/** True where `path` is the folder or lies in it. Both must be real paths. */
export function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way === '' || (way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way));
}
