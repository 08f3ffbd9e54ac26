import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { frameIndex } from '../../time/units.ts';
import type { FrameTable } from '../../time/frameTable.ts';
import type { CallHandler, Desk, JobHandler } from '../desk.ts';
import { readPreferences } from '../preferences.ts';
import { freePath } from '../reportPlace.ts';
import { bookOfCourse } from '../ruleBooks.ts';
import type { ReportAsked } from '../reportRoom.ts';
import { writeWhole } from '../wholeFile.ts';

/** Writes the coaching report into the library's folder of reports. */
export const reportWrite: JobHandler<'report.write'> = (desk, { reviewId, form }) => {
  const { state } = desk.library.reviews.whole(reviewId);
  return {
    about: state.header.title,
    lane: 'write',
    key: `report ${form} ${reviewId}`,
    async run({ signal, progress }) {
      const review = desk.library.reviews.whole(reviewId).state;
      const frames = framesOf(
        desk,
        review.footage.map((f) => f.clipId),
      );
      const preferences = readPreferences(desk.library.notes);
      const report = await desk.report.write({
        review,
        form,
        book: bookOfCourse(desk.library, review.course),
        frames,
        clips: factsOf(
          desk,
          review.footage.map((f) => f.clipId),
        ),
        preferences,
        signal,
        progress,
        still: stillsOf(desk, frames, signal),
        picture: (id) => picture(desk, id),
      });
      signal.throwIfAborted();
      const path = await freePath(desk.library.layout.reports, report.name, reviewId);
      const bytes = await writeWhole(path, report.content);
      return { mediaId: desk.media.idFor(path), path, name: basename(path), bytes };
    },
  };
};

/** Writes what a review says as data into the library's folder of reports. */
export const reportFigures: CallHandler<'report.figures'> = async (desk, { reviewId }) => {
  const review = desk.library.reviews.whole(reviewId).state;
  const clipIds = review.footage.map((f) => f.clipId);
  const { name, bytes: content } = desk.report.figures({
    review,
    frames: framesOf(desk, clipIds),
    preferences: readPreferences(desk.library.notes),
  });
  const path = join(desk.library.layout.reports, name);
  const bytes = await writeWhole(path, content);
  return { mediaId: desk.media.idFor(path), path, name, bytes };
};

function factsOf(desk: Desk, clipIds: readonly string[]): ReportAsked['clips'] {
  return new Map(
    clipIds.flatMap((id) => {
      const clip = desk.library.clips.get(id);
      return clip ? [[id, clip.facts]] : [];
    }),
  );
}

function framesOf(desk: Desk, clipIds: readonly string[]): Map<string, FrameTable> {
  return new Map([...new Set(clipIds)].map((id) => [id, desk.library.clips.frames(id)]));
}

/** Stills of one report. Where only a working copy is there, its own frame times count: it has the same frames. */
function stillsOf(
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

async function picture(desk: Desk, pictureId: string) {
  const kept = desk.library.pictures.get(pictureId);
  if (!kept) return null;
  const bytes = await readFile(join(desk.library.layout.pictures, kept.file)).catch(() => null);
  return bytes && { mime: kept.mime, bytes };
}
