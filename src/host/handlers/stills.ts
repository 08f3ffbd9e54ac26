import { frameIndex } from '../../time/units.ts';
import type { FrameTable } from '../../time/frameTable.ts';
import type { CallHandler, Desk } from '../desk.ts';
import type { ReportAsked } from '../reportRoom.ts';

/** One frame of a clip as a picture; null where its footage is not at hand. */
export const clipStill: CallHandler<'clip.still'> = async (desk, { clipId, frame, width }) => {
  const clip = desk.library.clips.get(clipId);
  if (!clip) return { jpeg: null };
  const frames = new Map([[clipId, desk.library.clips.frames(clipId)]]);
  const jpeg = await stillsOf(desk, frames, new AbortController().signal)(clipId, frame, width);
  return { jpeg: jpeg && Buffer.from(jpeg).toString('base64') };
};

/** Frames of clips as pictures. Where only a working copy is there, its own frame times count: it has the same frames. */
export function stillsOf(
  desk: Desk,
  frames: ReadonlyMap<string, FrameTable>,
  signal: AbortSignal,
): ReportAsked['still'] {
  const copies = new Map<string, Promise<FrameTable>>();
  const copyFrames = (path: string): Promise<FrameTable> => {
    const read =
      copies.get(path) ?? desk.footage.indexFrames(path, signal, () => undefined).then(({ table }) => table);
    copies.set(path, read);
    return read;
  };
  return async (clipId, frame, width) => {
    const clip = desk.library.clips.get(clipId);
    if (!clip) return null;
    // Half-pictures are frames of the copy only; a whole picture in their place would be another moment.
    const original = clip.fields ? null : desk.clips.original(clip);
    const path = original ?? desk.clips.copy(clip);
    if (path === null) return null;
    const table = original === null ? await copyFrames(path) : frames.get(clipId);
    return table ? desk.footage.still(path, table, frameIndex(frame), width, signal) : null;
  };
}
