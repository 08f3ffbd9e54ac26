import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readFile, rename, writeFile } from 'node:fs/promises';
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
}

/** The bytes of a stand-in video. */
export const standInVideo = (video: Partial<StandInVideo> = {}): string =>
  JSON.stringify({ frames: 30, needsCopy: null, mark: '', copyWaitsFor: null, ...video });

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

/** A footage room that reads stand-in videos instead of running ffmpeg. */
export function standInFootage(): FootageRoom {
  return {
    about: async () => 'none (stand-in)',
    async probe(path): Promise<FootageFacts> {
      const { frames, needsCopy } = await read(path);
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
      };
    },
    async indexFrames(path) {
      const { frames } = await read(path);
      return frameTable(
        timeBase(1, 30),
        Array.from({ length: frames }, (_, i) => i),
      );
    },
    async contentHash(path, _signal, onProgress) {
      const bytes = await readFile(path);
      onProgress(bytes.length, bytes.length);
      return createHash('sha256').update(bytes).digest('hex');
    },
    async makeWorkingCopy(from, to, frames, signal, onProgress) {
      const { copyWaitsFor } = await read(from);
      while (copyWaitsFor !== null && !existsSync(copyWaitsFor)) {
        signal.throwIfAborted();
        onProgress(1, frames.pts.length);
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
      signal.throwIfAborted();
      onProgress(frames.pts.length, frames.pts.length);
      const text = `copy of ${await readFile(from, 'utf8')}`;
      await writeFile(`${to}.part`, text);
      await rename(`${to}.part`, to);
      return { bytes: Buffer.byteLength(text), shift: 0 };
    },
    still: async () => Uint8Array.from([0xff, 0xd8, 0xff]),
  };
}

export const standInReport: ReportRoom = {
  write: async ({ review }) => ({
    name: 'report.html',
    html: `<!doctype html><title>${review.header.title}</title>`,
  }),
};
