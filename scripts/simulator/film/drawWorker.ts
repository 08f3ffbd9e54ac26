import { parentPort, workerData } from 'node:worker_threads';
import { sceneOf } from '../picture/scene.ts';
import type { RunOrder } from '../run/run.ts';
import { simulateRun } from '../run/run.ts';
import type { FilmOrder } from './order.ts';
import { cameraOf } from './order.ts';

/** What a drawing worker is told: which run, how filmed, and the moments that are its own. */
export interface DrawTask {
  readonly run: RunOrder;
  readonly film: FilmOrder;
  readonly times: readonly number[];
}

const task = workerData as DrawTask;
const run = simulateRun(task.run);
const scene = sceneOf(run, cameraOf(task.film, run), task.film.look);
let next = 0;

// One picture for each request, so that no more are held than are being written.
parentPort?.on('message', () => {
  const time = task.times[next++];
  if (time === undefined) {
    parentPort?.close();
    return;
  }
  scene.draw(time);
  const data = scene.canvas.data();
  const copy = new Uint8Array(data.length);
  copy.set(data);
  parentPort?.postMessage(copy, [copy.buffer]);
});
