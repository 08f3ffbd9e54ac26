import { Worker } from 'node:worker_threads';
import { availableParallelism } from 'node:os';

/** Keeps every core twice busy while something runs. */
export async function underLoad<T>(work: () => Promise<T>): Promise<T> {
  const busy = Array.from(
    { length: availableParallelism() * 2 },
    () => new Worker('for (let x = 1; ; x = (x * 16807) % 2147483647) if (x === 0) break;', { eval: true }),
  );
  try {
    return await work();
  } finally {
    await Promise.all(busy.map((w) => w.terminate()));
  }
}
