import { setTimeout as wait } from 'node:timers/promises';
import { makeClip } from '../../footage/clip/makeClip.ts';
import { probe } from '../../footage/probe.ts';
import type { FootageRoom } from '../footageRoom.ts';

/** Milliseconds after which the programs that look at the files are at work. */
const started = 10;

/** Makes a clip through ffmpeg, from files on the disk. */
export const encodeClip: FootageRoom['makeClip'] = async ({ layers, ...order }, to, signal, onProgress) => {
  const probed = order.lanes.map(async ({ path, ...lane }) => ({
    ...lane,
    facts: await probe(path, { signal }),
  }));
  // Laying out keeps this thread busy: programs that were not started before would be only after it.
  const laid = wait(started).then(layers);
  const [over, ...lanes] = await Promise.all([laid, ...probed]);
  return makeClip({ ...order, lanes, layers: over }, to, { signal, onProgress });
};
