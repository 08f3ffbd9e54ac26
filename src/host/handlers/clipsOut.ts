import { basename } from 'node:path';
import { clipWords } from '../../words/clip.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { clipFileName, writeClip, type ClipFile, type RunAsked } from '../clipOut/write.ts';
import type { Desk, JobHandler } from '../desk.ts';
import { dogCalled } from '../dogs.ts';
import { freePath } from '../reportPlace.ts';
import { bookOfCourse } from '../ruleBooks.ts';
import { trouble } from '../troubles.ts';

/** Makes a clip to hand over. A clip that is there already stays: the new one gets a number. */
export const clipWrite: JobHandler<'clip.write'> = (desk, { wish, kind }) => {
  const { state } = desk.library.reviews.whole(wish.reviewId);
  const name = clipFileName(state, kind);
  return {
    about: basename(name),
    subject: wish.reviewId,
    lane: 'clip',
    async run({ signal, progress }) {
      const tables = new Map<RunAsked, ReadonlyMap<string, string>>();
      const runOf = (reviewId: string): RunAsked => {
        const { run, clipIds } = runAsked(desk, reviewId);
        tables.set(run, clipIds);
        return run;
      };
      const run = runOf(wish.reviewId);
      const beside = wish.beside ? runOf(wish.beside.reviewId) : null;
      const path = await freePath(desk.library.layout.reports, name, wish.reviewId);
      const bytes = await writeClip(
        {
          wish,
          run,
          beside,
          fileOf: (of, footageId) => fileOf(desk, tables.get(of)?.get(footageId), signal),
          makeClip: desk.footage.makeClip,
          signal,
          progress,
        },
        path,
      );
      return { mediaId: desk.media.idFor(path), path, name: basename(path), bytes };
    },
  };
};

/** A review as the library has it, and the clips of its footage. */
function runAsked(
  desk: Desk,
  reviewId: string,
): { readonly run: RunAsked; readonly clipIds: ReadonlyMap<string, string> } {
  const review = desk.library.reviews.whole(reviewId).state;
  const known = review.footage.flatMap((use) => {
    const clip = desk.library.clips.get(use.clipId);
    return clip ? [{ use, clip }] : [];
  });
  const run: RunAsked = {
    review,
    clocks: new Map(
      known.map(({ use: { id, speed, offset, rate }, clip }) => [
        id,
        { table: desk.library.clips.frames(clip.id), speed, offset, rate },
      ]),
    ),
    pictures: new Map(
      known.map(({ use, clip: { facts } }) => [use.id, { width: facts.width, height: facts.height }]),
    ),
    book: bookOfCourse(desk.library, review.course),
    dog: dogCalled(desk.library.dogs, review.header.dog),
  };
  return { run, clipIds: new Map(known.map(({ use, clip }) => [use.id, clip.id])) };
}

/**
 * The file that a clip's frames are decoded from. Half-pictures are frames of the working copy only; where the original
 * is missing the copy serves too. A copy has the same frames, by its own times.
 */
async function fileOf(desk: Desk, clipId: string | undefined, signal: AbortSignal): Promise<ClipFile | null> {
  const clip = clipId === undefined ? null : desk.library.clips.get(clipId);
  if (!clip) throw trouble('notFound', hostTroubles.unknownClip);
  const original = clip.fields ? null : desk.clips.original(clip);
  if (original !== null) return { path: original, table: desk.library.clips.frames(clip.id) };
  const copy = desk.clips.copy(clip);
  if (copy === null) throw trouble('notFound', clipWords.refused.noFootage);
  const { table } = await desk.footage.indexFrames(copy, signal, () => undefined);
  return { path: copy, table };
}
