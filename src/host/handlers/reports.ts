import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { FrameTable } from '../../time/frameTable.ts';
import type { CallHandler, Desk, JobHandler } from '../desk.ts';
import { readPreferences } from '../preferences.ts';
import { freePath } from '../reportPlace.ts';
import { bookOfCourse } from '../ruleBooks.ts';
import type { ReportAsked } from '../reportRoom.ts';
import { stillsOf } from './stills.ts';
import { writeWhole } from '../wholeFile.ts';

/** Writes the coaching report into the library's folder of reports. */
export const reportWrite: JobHandler<'report.write'> = (desk, { reviewId, form, short, copy }) => {
  const { state } = desk.library.reviews.whole(reviewId);
  return {
    about: state.header.title,
    lane: 'write',
    key: `report ${form} ${short ? 'short' : 'full'} ${copy} ${reviewId}`,
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
        short,
        copy,
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
    book: bookOfCourse(desk.library, review.course),
    clips: factsOf(desk, clipIds),
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

async function picture(desk: Desk, pictureId: string) {
  const kept = desk.library.pictures.get(pictureId);
  if (!kept) return null;
  const bytes = await readFile(join(desk.library.layout.pictures, kept.file)).catch(() => null);
  return bytes && { mime: kept.mime, bytes };
}
