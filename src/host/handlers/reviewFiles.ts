import { basename, dirname, isAbsolute, resolve } from 'node:path';
import type { Clip } from '../../library/clips.ts';
import type { ClipFacts, DocumentFootage, ReviewDocument } from '../../review/document.ts';
import { largestDocument, readDocument, stateOf } from '../../review/readDocument.ts';
import { fieldsOf, sameTable } from '../../time/fields.ts';
import { frameTable, type FrameTable } from '../../time/frameTable.ts';
import { timeBase } from '../../time/timeBase.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import type { FileSource } from '../contract/calls.ts';
import { largestMessage } from '../contract/messages.ts';
import { dropCopyJob, queueCopy } from '../copyQueue.ts';
import type { Desk, JobHandler } from '../desk.ts';
import { given, nameOf, type Given } from '../fileSource.ts';
import { givenText } from '../givenText.ts';
import type { JobRun, JobTools } from '../jobQueue.ts';
import { trouble } from '../troubles.ts';
import { takeIn } from './clips.ts';

/** A review that was taken in has to fit into one message to the window as well. */
const mostBytes = Math.min(largestDocument, largestMessage);

export const reviewImport: JobHandler<'review.import'> = (desk, { source }) => importing(desk, source, false);

/** The same for a review file of Walkback's own, whose frame times need not be read again from the footage. */
export const ownReviewImport: JobHandler<'review.import'> = (desk, { source }) =>
  importing(desk, source, true);

const importing = (desk: Desk, source: FileSource, ownTables: boolean): JobRun<{ reviewId: string }> => ({
  about: nameOf(desk, source),
  lane: 'read',
  async run(tools) {
    const file = await given(desk, source);
    try {
      const document = await read(file);
      const folder = file.uploadId === null ? dirname(file.path) : null;
      return { reviewId: await takeInReview(desk, document, { folder, ownTables }, tools) };
    } finally {
      if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
    }
  },
});

/** Where a document came from: the folder of its file, null where it came as an upload. */
interface Origin {
  readonly folder: string | null;
  readonly ownTables: boolean;
}

async function read(file: Given): Promise<ReviewDocument> {
  if (file.bytes > mostBytes) {
    throw trouble('badInput', hostTroubles.reviewTooLarge(file.name, file.bytes, mostBytes));
  }
  const reading = readDocument(await givenText(file));
  if (!reading.ok) throw trouble(reading.code, hostTroubles.reviewFile(file.name, reading.problems));
  return reading.document;
}

/**
 * Takes a review into the library under an id of its own. Footage is looked for in the library by content, then
 * beside the review file; what is not found stays as a missing clip with the frame times from the document.
 */
async function takeInReview(
  desk: Desk,
  document: ReviewDocument,
  from: Origin,
  tools: JobTools,
): Promise<string> {
  const clipIds = new Map<string, string>();
  for (const use of document.footage) {
    if (!clipIds.has(use.clip.sha256))
      clipIds.set(use.clip.sha256, (await clipFor(desk, use, from, tools)).id);
  }
  tools.signal.throwIfAborted();
  const id = desk.library.reviews.has(document.id) ? desk.newId() : document.id;
  const footage = stateOf(document).footage.map((use, i) => ({
    ...use,
    clipId: clipIds.get(document.footage[i]?.clip.sha256 ?? '') ?? use.clipId,
  }));
  desk.library.reviews.add({ ...stateOf(document), id, footage });
  desk.hub.libraryChanged();
  return id;
}

async function clipFor(desk: Desk, use: DocumentFootage, from: Origin, tools: JobTools): Promise<Clip> {
  const { clip } = use;
  const there = desk.library.clips.byContent(clip.sha256);
  if (there && desk.clips.original(there) !== null) return agreeing(desk, there, clip);
  const file = await beside(desk, use, from.folder, tools);
  if (file) {
    const taken = await takeIn(desk, file, tools, from.ownTables ? tableOf(clip) : null);
    return agreeing(desk, taken, clip);
  }
  return there ?? missingClip(desk, use);
}

/**
 * A clip of the library for a review file that may count half-pictures where the library counts whole ones, or the
 * other way about. As long as nothing lies on its frames here, the file's way is taken. Throws `conflict` else.
 */
async function agreeing(desk: Desk, there: Clip, told: ClipFacts): Promise<Clip> {
  const { clips } = desk.library;
  const [own, theirs] = [clips.frames(there.id), tableOf(told)];
  const toFields = !there.fields && sameTable(fieldsOf(own), theirs);
  const toFrames = there.fields && sameTable(own, fieldsOf(theirs));
  if (!toFields && !toFrames) return there;
  if (clips.everMarked(there.id)) throw trouble('conflict', hostTroubles.otherFrames(there.name));
  dropCopyJob(desk, there.id);
  clips.setFields(there.id, toFields, theirs);
  const now = clips.get(there.id) ?? there;
  await desk.clips.lookAt(now);
  queueCopy(desk, now);
  return now;
}

/** The clip's file beside the review file or where it was last seen, where that is the same content. */
async function beside(
  desk: Desk,
  { name, clip }: DocumentFootage,
  folder: string | null,
  tools: JobTools,
): Promise<Given | null> {
  if (folder === null) return null;
  const told = clip.path ?? name;
  const places = [isAbsolute(told) ? told : resolve(folder, told), resolve(folder, basename(told))];
  for (const path of new Set(places)) {
    const file = await given(desk, { path }).catch(() => null);
    if (file?.bytes !== clip.bytes) continue;
    const sha256 = await desk.footage.contentHash(file.path, tools.signal, () => undefined);
    if (sha256 === clip.sha256) return file;
  }
  return null;
}

function missingClip(desk: Desk, { name, clip }: DocumentFootage): Clip {
  return desk.library.clips.add(
    {
      id: desk.newId(),
      name: basename(clip.path ?? name),
      path: null,
      fileTime: null,
      sha256: clip.sha256,
      bytes: clip.bytes,
      facts: factsFrom(clip),
    },
    tableOf(clip),
  );
}

const tableOf = (clip: ClipFacts): FrameTable => frameTable(timeBase(...clip.timeBase), clip.pts);

/** What a review file tells of a clip; the rest is not known until its file is there. */
function factsFrom(clip: ClipFacts) {
  const [num, den] = clip.timeBase;
  const first = clip.pts[0] ?? 0;
  const last = clip.pts.at(-1) ?? first;
  return {
    width: clip.width,
    height: clip.height,
    rotation: clip.rotation,
    container: '',
    codec: clip.codec,
    pixelFormat: '',
    sound: null,
    seconds: ((last - first) * num) / den,
    decodable: null,
    why: null,
  };
}
