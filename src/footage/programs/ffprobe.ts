import { spawn } from 'node:child_process';
import { StringDecoder } from 'node:string_decoder';
import { findPrograms } from './find.ts';
import { plainPath, programEnvironment, safeReading } from './reading.ts';

/** How a run of ffprobe ended. */
export interface ProbeEnd {
  readonly exit: number | null;
  /** Set where the program was ended by a signal or crashed. */
  readonly killed: string | null;
  /** The last of what it complained about. */
  readonly complaint: string;
  readonly complaints: number;
}

/** Thrown where the caller's signal stopped the run. */
export class Stopped extends Error {}

/**
 * Runs ffprobe on a file and hands over its output line by line, so that a long clip is never held as one text.
 * fluent-ffmpeg's own ffprobe collects everything and cannot be stopped, hence this. The child is killed when
 * `signal` fires, and the promise then rejects with Stopped.
 */
export async function runFfprobe(
  file: string,
  options: readonly string[],
  onLine: (line: string) => void,
  signal?: AbortSignal,
): Promise<ProbeEnd> {
  const { ffprobe } = await findPrograms();
  if (signal?.aborted) throw new Stopped();
  const args = ['-hide_banner', '-v', 'error', ...safeReading, ...options, '-i', plainPath(file)];
  return new Promise((resolve, reject) => {
    const child = spawn(ffprobe, args, {
      stdio: ['ignore', 'pipe', 'pipe'],
      windowsHide: true,
      env: programEnvironment(),
    });
    const stop = (): void => {
      child.kill('SIGKILL');
    };
    signal?.addEventListener('abort', stop, { once: true });

    let failure: Error | undefined;
    const failed = (error: unknown): void => {
      failure = error instanceof Error ? error : new Error(String(error));
    };
    let rest = '';
    const text = new StringDecoder('utf8');
    child.stdout.on('data', (chunk: Buffer) => {
      if (failure !== undefined) return;
      const lines = (rest + text.write(chunk)).split('\n');
      rest = lines.pop() ?? '';
      try {
        for (const line of lines) onLine(line);
      } catch (error) {
        failed(error);
        stop();
      }
    });
    let complaint = '';
    let complaints = 0;
    child.stderr.setEncoding('utf8').on('data', (chunk: string) => {
      complaints += chunk.split('\n').length - 1;
      complaint = (complaint + chunk).slice(-4000);
    });
    child.once('error', (error) => {
      signal?.removeEventListener('abort', stop);
      reject(error);
    });
    child.once('close', (exit, killed) => {
      signal?.removeEventListener('abort', stop);
      if (signal?.aborted) return reject(new Stopped());
      try {
        if (failure === undefined && rest !== '') onLine(rest);
      } catch (error) {
        failed(error);
      }
      if (failure !== undefined) return reject(failure);
      resolve({ exit, killed, complaint: complaint.trim(), complaints });
    });
  });
}
