import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { findPrograms } from '../../../src/footage/programs/find.ts';

/** A folder of its own for a test file. */
export async function scratch(): Promise<{
  folder: string;
  at(name: string): string;
  clear(): Promise<void>;
}> {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'walkback-footage-'));
  return {
    folder,
    at: (name) => path.join(folder, name),
    clear: () => rm(folder, { recursive: true, force: true }),
  };
}

/** Runs ffmpeg itself to make a file for a test. */
export async function ffmpeg(...args: string[]): Promise<void> {
  const { ffmpeg: program } = await findPrograms();
  execFileSync(program, ['-v', 'error', '-y', ...args], { stdio: ['ignore', 'ignore', 'pipe'] });
}
