import { createHash } from 'node:crypto';
import { readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { frameIndex } from '../../time/units.ts';
import type { FrameTable } from '../../time/frameTable.ts';
import type { Desk, JobHandler } from '../desk.ts';
import { readPreferences } from '../preferences.ts';

/** Writes the report beside its final name and moves it into place: a report that is there is whole. */
export const reportWrite: JobHandler<'report.write'> = (desk, { reviewId }) => {
  const { state } = desk.library.reviews.whole(reviewId);
  return {
    about: state.header.title,
    lane: 'write',
    key: `report ${reviewId}`,
    async run({ signal, progress }) {
      const review = desk.library.reviews.whole(reviewId).state;
      const frames = framesOf(
        desk,
        review.footage.map((f) => f.clipId),
      );
      const preferences = readPreferences(desk.library.notes);
      const report = await desk.report.write({
        review,
        frames,
        preferences,
        signal,
        progress,
        still: (clipId, frame, width) => still(desk, frames, clipId, frame, width, signal),
        picture: (id) => picture(desk, id),
      });
      signal.throwIfAborted();
      const path = join(desk.library.layout.reports, ownName(report.name, reviewId));
      const making = `${path}.${desk.newId()}.part`;
      try {
        await writeFile(making, report.html, { flush: true });
        await rename(making, path);
      } finally {
        await rm(making, { force: true });
      }
      const { size } = await stat(path);
      return { mediaId: desk.media.idFor(path), path, name: basename(path), bytes: size };
    },
  };
};

/** Reports of the same review replace each other; reports of two reviews with one title do not. */
function ownName(name: string, reviewId: string): string {
  const mark = createHash('sha256').update(reviewId).digest('hex').slice(0, 8);
  return name.replace(/(\.html)?$/, `-${mark}.html`);
}

function framesOf(desk: Desk, clipIds: readonly string[]): Map<string, FrameTable> {
  return new Map([...new Set(clipIds)].map((id) => [id, desk.library.clips.frames(id)]));
}

async function still(
  desk: Desk,
  frames: ReadonlyMap<string, FrameTable>,
  clipId: string,
  frame: number,
  width: number,
  signal: AbortSignal,
): Promise<Uint8Array | null> {
  const clip = desk.library.clips.get(clipId);
  const table = frames.get(clipId);
  const path = clip && (desk.clips.original(clip) ?? desk.clips.copy(clip));
  if (!path || !table) return null;
  return desk.footage.still(path, table, frameIndex(frame), width, signal);
}

async function picture(desk: Desk, pictureId: string) {
  const kept = desk.library.pictures.get(pictureId);
  if (!kept) return null;
  const bytes = await readFile(join(desk.library.layout.pictures, kept.file)).catch(() => null);
  return bytes && { mime: kept.mime, bytes };
}
