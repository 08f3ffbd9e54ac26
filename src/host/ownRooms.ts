import { contentHash } from '../footage/contentHash.ts';
import { reasonForCopy, reasonForEase } from '../footage/decodable.ts';
import { indexFrames } from '../footage/frameIndex.ts';
import { probe } from '../footage/probe.ts';
import { findPrograms } from '../footage/programs/find.ts';
import { readSound } from '../footage/sound.ts';
import { still } from '../footage/still.ts';
import { FootageError } from '../footage/trouble.ts';
import { makeWorkingCopy } from '../footage/workingCopy.ts';
import { encodeClip } from './clipOut/encode.ts';
import { demoFolder } from './demo.ts';
import type { FootageRoom } from './footageRoom.ts';
import type { HostRooms } from './host.ts';
import { reportRoom } from './report.ts';

/** Footage as it is: through ffmpeg, from the disk. */
const footage: FootageRoom = {
  async about() {
    try {
      const { version, ffmpeg } = await findPrograms();
      return `${version} (${ffmpeg})`;
    } catch (error) {
      // Where there is no ffmpeg, that is what there is to tell.
      if (error instanceof FootageError) return error.message;
      throw error;
    }
  },
  async probe(path, signal) {
    const found = await probe(path, { signal });
    const { width, height, rotation, codec, pixelFormat, interlaced } = found.picture;
    const { container, seconds, capture } = found;
    const sound = found.sound?.codec ?? null;
    const needsCopy = reasonForCopy(found);
    const picture = { width, height, rotation, codec, pixelFormat, interlaced };
    return { ...picture, container, sound, seconds, needsCopy, capture };
  },
  async indexFrames(path, signal, onProgress) {
    const facts = await probe(path, { signal });
    const { table, keyDistance } = await indexFrames(path, { signal, onProgress, facts });
    return { table, slow: reasonForEase(facts.picture, keyDistance) };
  },
  contentHash: (path, signal, onProgress) => contentHash(path, { signal, onProgress }),
  makeWorkingCopy: (from, to, frames, fields, signal, onProgress) =>
    makeWorkingCopy(from, frames, to, { signal, onProgress, fields }),
  makeClip: encodeClip,
  sound: (path, frames, part, signal) => readSound(path, frames, { ...part, signal }),
  still: (path, frames, frame, maxWidth, signal) => still(path, frames, frame, { maxWidth, signal }),
};

/** The rooms that the host works with outside of tests. */
export async function ownRooms(): Promise<HostRooms> {
  return { footage, report: reportRoom, demoFolder: demoFolder() };
}
