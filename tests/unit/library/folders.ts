import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import { openLibrary, type Library, type LibraryOptions } from '../../../src/library/library.ts';

/** Empty folders and libraries for one test each: closed and removed when it ends. */
export function testFolders() {
  const folders: string[] = [];
  const open = new Set<Library>();
  afterEach(() => {
    for (const library of open) library.close();
    open.clear();
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
  const folder = (): string => {
    const made = mkdtempSync(join(tmpdir(), 'walkback-'));
    folders.push(made);
    return join(made, 'library');
  };
  return {
    folder,
    /** A library in `at`, or in a new folder. */
    library(at: string = folder(), options: LibraryOptions = {}): Library {
      const library = openLibrary(at, options);
      open.add(library);
      return library;
    },
    close(library: Library): void {
      library.close();
      open.delete(library);
    },
  };
}
