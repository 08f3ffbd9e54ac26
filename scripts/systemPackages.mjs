// Programs that the tests need from the system. Runs on Node 20 with nothing installed.
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { run } from './packages.mjs';

/** Path of a program on PATH; null where there is none. */
export function findOnPath(name) {
  const endings = process.platform === 'win32' ? ['.exe'] : [''];
  for (const folder of (process.env.PATH ?? '').split(delimiter))
    for (const ending of endings) {
      const path = join(folder, name + ending);
      try {
        accessSync(path, constants.X_OK);
        return path;
      } catch {
        // Not here; on to the next folder.
      }
    }
  return null;
}

/**
 * Finds a program, installing it by the system's packages where it is missing and that may be done.
 * Resolves to null, having said the one command to run, where it cannot be had.
 */
export async function makeSureOf({ what, find, debian }) {
  const there = find();
  if (there) return there;
  const isDebian = existsSync('/usr/bin/apt-get');
  if (isDebian && process.getuid?.() === 0) {
    console.log(`${what} is missing; installing Debian’s package ${debian} …`);
    const quiet = { env: { DEBIAN_FRONTEND: 'noninteractive' } };
    await run('apt-get', ['update', '-q'], quiet);
    await run('apt-get', ['install', '-y', '-q', '--no-install-recommends', debian], quiet);
    const now = find();
    if (now) return now;
  }
  const command = isDebian ? `sudo apt-get install -y ${debian}` : null;
  console.error(
    command
      ? `The tests need ${what}. Run: ${command}`
      : `The tests need ${what}. Install it by your system's means, so that “${debian}” is found.`,
  );
  return null;
}
