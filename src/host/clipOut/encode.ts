import { makeClip } from '../../footage/clip/makeClip.ts';
import { probe } from '../../footage/probe.ts';
import type { FootageRoom } from '../footageRoom.ts';

/** Makes a clip through ffmpeg, from files on the disk. */
export const encodeClip: FootageRoom['makeClip'] = async (order, to, signal, onProgress) => {
  const lanes = [];
  for (const { path, ...lane } of order.lanes) lanes.push({ ...lane, facts: await probe(path, { signal }) });
  return makeClip({ ...order, lanes }, to, { signal, onProgress });
};
