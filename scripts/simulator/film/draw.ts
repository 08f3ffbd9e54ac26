import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { RunOrder } from '../run/run.ts';
import type { DrawTask } from './drawWorker.ts';
import type { FilmOrder } from './order.ts';

/**
 * The pictures of a film in order, each `width * height * 4` bytes (red, green, blue, alpha).
 * `hands` workers draw every so-many-th picture each, at most two ahead.
 */
export async function* drawnPictures(
  run: RunOrder,
  film: FilmOrder,
  times: readonly number[],
  hands: number,
): AsyncGenerator<Uint8Array> {
  const workers = Array.from({ length: Math.max(1, hands) }, (_, k) => {
    const task: DrawTask = { run, film, times: times.filter((__, i) => i % hands === k) };
    return new Worker(new URL('./drawWorker.ts', import.meta.url), { workerData: task });
  });
  const waiting: Promise<Uint8Array>[][] = workers.map(() => []);
  const ask = (k: number): void => {
    const worker = workers[k];
    const list = waiting[k];
    if (!worker || !list) return;
    list.push(pictureFrom(worker));
    worker.postMessage('next');
  };
  try {
    workers.forEach((_, k) => {
      ask(k);
    });
    for (let i = 0; i < times.length; i++) {
      const k = i % workers.length;
      const picture = await waiting[k]?.shift();
      if (i + workers.length < times.length) ask(k);
      if (picture) yield picture;
    }
  } finally {
    await Promise.all(workers.map((w) => w.terminate()));
  }
}

async function pictureFrom(worker: Worker): Promise<Uint8Array> {
  const [message] = (await once(worker, 'message')) as [Uint8Array];
  return message;
}
