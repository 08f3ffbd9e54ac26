import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';
import { jsonText, type Output } from '../../../app/cli/output.ts';
import { run } from '../../../app/cli/program.ts';

export const root = resolve(import.meta.dirname, '../../..');
export const demo = join(root, 'fixtures/demo');

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs a command in this process. */
export async function cli(...args: string[]): Promise<Ran> {
  let out = '';
  let err = '';
  const output: Output = {
    text: (text) => void (out += text.endsWith('\n') ? text : `${text}\n`),
    json: (value, compact = false) => void (out += `${jsonText(value, compact)}\n`),
    remark: (text) => void (err += `${text}\n`),
  };
  const code = await run(args, output, new AbortController().signal);
  return { code, out, err };
}

/** Runs the program as a user does, through a shell line in which "$@" is the program with its arguments. */
export function shell(
  line: string,
  args: readonly string[],
  as?: { uid: number; gid: number },
): Promise<Ran> {
  return new Promise((done, fail) => {
    const program = [process.execPath, join(root, 'app/cli/main.ts'), ...args];
    const child = spawn('bash', ['-c', line, 'walkback', ...program], {
      env: { ...process.env, npm_lifecycle_event: undefined },
      ...(as ?? {}),
    });
    let out = '';
    let err = '';
    child.stdout.on('data', (chunk: Buffer) => (out += chunk.toString()));
    child.stderr.on('data', (chunk: Buffer) => (err += chunk.toString()));
    child.on('error', fail);
    child.on('close', (code) => done({ code, out, err }));
  });
}

/** A folder that is gone when the test is over. Its name has a space, quotes and other letters. */
export async function folder(): Promise<string> {
  const made = await mkdtemp(join(tmpdir(), `walk back's “dó”-犬-`));
  onTestFinished(() => rm(made, { recursive: true, force: true }));
  return made;
}
