import { resolve } from 'node:path';

/**
 * A path as the caller meant it. npm starts scripts in the package's folder and tells the caller's own in
 * INIT_CWD (npm docs, "scripts": environment).
 */
export function placeOf(path: string): string {
  const caller = process.env['npm_lifecycle_event'] === undefined ? undefined : process.env['INIT_CWD'];
  return resolve(caller ?? process.cwd(), path);
}
