import { readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/**
 * Does a piece of work while nobody else does the same, in this process or another: whoever comes second waits, and
 * then most likely finds the work done. `lock` is the path of a file that stands while the work goes on and holds the
 * process's id; one whose process has ended without removing it is taken over.
 */
export async function inTurn<T>(lock: string, work: () => Promise<T>): Promise<T> {
  while (!taken(lock)) {
    if (leftLying(lock)) rmSync(lock, { force: true });
    else await wait(100);
  }
  try {
    return await work();
  } finally {
    rmSync(lock, { force: true });
  }
}

function taken(lock: string): boolean {
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

/** Whether the process that took it has ended. Between making the file and writing the id there is a moment. */
function leftLying(lock: string): boolean {
  try {
    const id = readFileSync(lock, 'utf8');
    if (id === '') return Date.now() - statSync(lock).mtimeMs > 10_000;
    process.kill(Number(id), 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH';
  }
}
