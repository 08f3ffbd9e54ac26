import { Worker } from 'node:worker_threads';
import type { PageAsked, PageDrawn } from './messages.ts';

/** Longest that a page may take, milliseconds, and most memory of the script that draws it, megabytes. */
const limits = { time: 40_000, memory: 768 } as const;

/** Where the worker's code lies: beside this file as it is written, or as the desktop's build names it. */
const worker = new URL(import.meta.url.endsWith('.ts') ? './worker.ts' : './pdfWorker.js', import.meta.url);

/** True of bytes that start like a PDF (ISO 32000-1, 7.5.2); some programs write a little before it. */
export const isPdf = (bytes: Uint8Array): boolean =>
  Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.length, 1024)).includes('%PDF-');

/**
 * Draws a page of a PDF in a thread of its own, so that a file that is damaged or made to do harm costs neither the
 * host nor more than its time.
 */
export function pdfPage(asked: PageAsked, most: number = limits.time): Promise<PageDrawn> {
  return new Promise((resolve) => {
    const thread = new Worker(worker, {
      workerData: asked,
      resourceLimits: { maxOldGenerationSizeMb: limits.memory },
      stdout: true,
      stderr: true,
    });
    const end = (drawn: PageDrawn): void => {
      clearTimeout(timer);
      resolve(drawn);
      void thread.terminate();
    };
    const timer = setTimeout(() => {
      end({ ok: false, why: 'tooLong' });
    }, most);
    thread.once('message', end);
    // Out of memory, or a fault that the drawing did not catch itself.
    thread.once('error', () => {
      end({ ok: false, why: 'damaged' });
    });
    thread.once('exit', () => {
      end({ ok: false, why: 'damaged' });
    });
  });
}
