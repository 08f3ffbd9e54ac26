import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readFile, rename, truncate, writeFile } from 'node:fs/promises';
import type { FootageFacts, FootageRoom } from '../../../src/host/footageRoom.ts';
import type { ReportRoom } from '../../../src/host/reportRoom.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';

/** What a stand-in video file says. It is a JSON text, so that tests can write one in a line. */
export interface StandInVideo {
  readonly frames: number;
  readonly needsCopy: string | null;
  /** Any text, to tell contents apart. */
  readonly mark: string;
  /** Making the working copy waits for this file to be there. */
  readonly copyWaitsFor: string | null;
  readonly slow: string | null;
  readonly interlaced: boolean;
  /** Bytes of its working copy; as many as its text has where 0. */
  readonly copyBytes: number;
}

/** The bytes of a stand-in video. */
export const standInVideo = (video: Partial<StandInVideo> = {}): string =>
  JSON.stringify({
    frames: 30,
    needsCopy: null,
    mark: '',
    copyWaitsFor: null,
    slow: null,
    interlaced: false,
    copyBytes: 0,
    ...video,
  });

class StandInError extends Error {
  readonly code: string;
  constructor(code: string, message: string) {
    super(message);
    this.code = code;
  }
}

async function read(path: string): Promise<StandInVideo> {
  try {
    return JSON.parse(await readFile(path, 'utf8')) as StandInVideo;
  } catch {
    throw new StandInError('noVideo', `There is no video in ${path}.`);
  }
}

/** Half a minute of bursts of noise, drawn from a text. */
function standInSound(mark: string): Float32Array {
  let state = [...mark].reduce((h, c) => (Math.imul(h, 31) + c.charCodeAt(0)) >>> 0, 7);
  const uniform = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32 - 0.5;
  const samples = new Float32Array(30 * 8000);
  for (let burst = 0; burst < 30; burst++) {
    const at = Math.floor((uniform() + 0.5) * (samples.length - 4000));
    for (let n = 0; n < 2400; n++) samples[at + n] = uniform() * (1 - n / 2400);
  }
  return samples;
}

/** A footage room that reads stand-in videos instead of running ffmpeg. */
export function standInFootage(): FootageRoom {
  return {
    about: async () => 'none (stand-in)',
    async probe(path): Promise<FootageFacts> {
      const { frames, needsCopy, interlaced } = await read(path);
      return {
        width: 640,
        height: 360,
        rotation: 0,
        container: 'mp4',
        codec: needsCopy === null ? 'h264' : 'hevc',
        pixelFormat: 'yuv420p',
        sound: null,
        seconds: frames / 30,
        needsCopy,
        interlaced,
      };
    },
    async indexFrames(path) {
      const { frames, slow } = await read(path);
      const ticks = Array.from({ length: frames }, (_, i) => i);
      return { table: frameTable(timeBase(1, 30), ticks), slow };
    },
    async contentHash(path, _signal, onProgress) {
      const bytes = await readFile(path);
      onProgress(bytes.length, bytes.length);
      return createHash('sha256').update(bytes).digest('hex');
    },
    async makeWorkingCopy(from, to, frames, fields, signal, onProgress) {
      const { copyWaitsFor, copyBytes } = await read(from);
      while (copyWaitsFor !== null && !existsSync(copyWaitsFor)) {
        signal.throwIfAborted();
        onProgress(1, frames.pts.length);
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
      signal.throwIfAborted();
      onProgress(frames.pts.length, frames.pts.length);
      const text = `copy${fields ? ' in fields' : ''} of ${await readFile(from, 'utf8')}`;
      await writeFile(`${to}.part`, text);
      const bytes = Math.max(Buffer.byteLength(text), copyBytes);
      // A file with a hole takes no room.
      await truncate(`${to}.part`, bytes);
      await rename(`${to}.part`, to);
      return { bytes, shift: 0, width: 640, height: 360 };
    },
    async makeClip({ ticks }, to, signal, onProgress) {
      signal.throwIfAborted();
      onProgress(ticks, ticks);
      const text = `clip of ${ticks} pictures`;
      await writeFile(to, text);
      return Buffer.byteLength(text);
    },
    // The sound of a stand-in is its mark: the same mark sounds the same.
    sound: async (path, _frames, { from }) => ({
      rate: 8000,
      samples: standInSound((await read(path)).mark),
      from,
    }),
    still: async () => Uint8Array.from([0xff, 0xd8, 0xff]),
  };
}

export const standInReport: ReportRoom = {
  write: async ({ review }) => ({
    name: 'report.html',
    content: `<!doctype html><title>${review.header.title}</title>`,
  }),
  figures: ({ review }) => ({
    name: 'figures.zip',
    bytes: new TextEncoder().encode(review.header.title),
  }),
};
