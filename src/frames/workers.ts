/** A worker that has its code already, for the next clip: loading it takes longer than decoding a first picture. */
let spare: Worker | null = null;

const make = (): Worker => new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });

/** A worker for one clip; the caller ends it. */
export function takeWorker(): Worker {
  const taken = spare ?? make();
  spare = null;
  return taken;
}

/** Makes the worker for the next clip ready, in the background. */
export function readyWorker(): void {
  spare ??= make();
}
