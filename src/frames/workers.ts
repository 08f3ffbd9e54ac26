/** Workers that have their code already, for the next clips: loading it takes longer than decoding a first picture. */
const spare: Worker[] = [];

const make = (): Worker => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });

/** A worker for one clip; the caller ends it. */
export function takeWorker(): Worker {
  return spare.pop() ?? make();
}

/** Makes workers for so many clips ready, in the background. */
export function readyWorkers(count: number): void {
  while (spare.length < count) spare.push(make());
}

/** Makes the worker for the next clip ready, in the background. */
export function readyWorker(): void {
  readyWorkers(1);
}
