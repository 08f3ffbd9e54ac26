import { mkdir } from 'node:fs/promises';
import { dirname } from 'node:path';

/**
 * Makes a folder and those above it; one that is there is left alone.
 * In place of Node's own recursive `mkdir`, which never comes back where the system answers ENOENT for a folder
 * whose parent is there, as under /proc (seen with Node 24.21).
 */
export async function makeFolder(path: string): Promise<void> {
  const reason = await attempt(path);
  if (reason === null) return;
  const above = dirname(path);
  if (codeOf(reason) !== 'ENOENT' || above === path) throw reason;
  await makeFolder(above);
  const again = await attempt(path);
  if (again !== null) throw again;
}

/** What stood in the way, or null. EEXIST on a folder is no hindrance; on a file the next step tells. */
async function attempt(path: string): Promise<Error | null> {
  try {
    await mkdir(path);
    return null;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return null;
    return error instanceof Error ? error : new Error(String(error));
  }
}

function codeOf(error: unknown): unknown {
  return error instanceof Error && 'code' in error ? error.code : undefined;
}
