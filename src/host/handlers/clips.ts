import { mkdir, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Clip, FileSeen, StoredFacts } from '../../library/clips.ts';
import { frameSeconds, lastFrame, type FrameTable } from '../../time/frameTable.ts';
import { fieldsOf, sameTable } from '../../time/fields.ts';
import { frameIndex } from '../../time/units.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { queueCopy } from '../copyQueue.ts';
import type { CallHandler, Desk, JobHandler } from '../desk.ts';
import { safeFileName } from '../fileName.ts';
import { given, moveInto, nameOf, type Given } from '../fileSource.ts';
import type { FootageFacts } from '../footageRoom.ts';
import type { JobTools } from '../jobQueue.ts';
import { trouble } from '../troubles.ts';

/** The part of a clip's taking in that goes to reading its bytes; the rest is decoding. */
const hashShare = 0.2;

export const clipFrames: CallHandler<'clip.frames'> = (desk, { clipId }) => {
  const clip = known(desk, clipId);
  const { timeBase, pts } = desk.library.clips.frames(clip.id);
  return { clipId, timeBase: [timeBase.num, timeBase.den], pts: [...pts] };
};

export const clipImport: JobHandler<'clip.import'> = (desk, { source }) => ({
  about: nameOf(desk, source),
  lane: 'read',
  async run(tools) {
    const file = await given(desk, source);
    try {
      const clip = await takeIn(desk, file, tools);
      return { clip: desk.clips.summary(clip) };
    } finally {
      if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
    }
  },
});

/**
 * Reads a video into the library: facts, every frame's time, content. The same content is the same clip. Queues the
 * working copy where one is needed. Nothing is kept where any step fails. `knownFrames`, where every frame's time is
 * known for certain, spares the decoding.
 */
export async function takeIn(
  desk: Desk,
  file: Given,
  tools: JobTools,
  knownFrames: FrameTable | null = null,
): Promise<Clip> {
  const sha256 = await desk.footage.contentHash(file.path, tools.signal, (done, of) =>
    tools.progress((hashShare * done) / of, 1),
  );
  const there = desk.library.clips.byContent(sha256);
  if (there && desk.clips.original(there) !== null) return there;
  const { facts, frames } = await read(desk, file, tools, knownFrames);
  tools.signal.throwIfAborted();

  const path = await placeOf(desk, file, sha256);
  try {
    const seen = { path, fileTime: file.fileTime };
    const clip = there ?? desk.library.clips.add({ ...named(desk, file, sha256), ...seen, facts }, frames);
    if (there) place(desk, there.id, seen, facts, frames);
    return await settled(desk, clip.id);
  } catch (error) {
    if (file.uploadId !== null) await rm(dirname(path), { recursive: true, force: true });
    throw error;
  }
}

const named = (desk: Desk, file: Given, sha256: string) => ({
  id: desk.newId(),
  name: file.name,
  sha256,
  bytes: file.bytes,
});

/** Gives a clip its file. Where half-pictures were counted before (a review file says so), they are counted on. */
function place(
  desk: Desk,
  clipId: string,
  seen: FileSeen,
  facts: StoredFacts,
  frames: FrameTable | null,
): void {
  const { clips } = desk.library;
  const fields = frames !== null && sameTable(fieldsOf(frames), clips.frames(clipId));
  clips.place(clipId, seen, facts, fields ? null : frames);
  if (fields) clips.setFields(clipId, true, fieldsOf(frames));
}

/** Looks at a clip's files, tells the windows, queues its working copy where it needs one. */
async function settled(desk: Desk, clipId: string): Promise<Clip> {
  const clip = known(desk, clipId);
  await desk.clips.lookAt(clip);
  desk.hub.libraryChanged();
  queueCopy(desk, clip);
  return clip;
}

async function read(
  desk: Desk,
  file: Given,
  tools: JobTools,
  knownFrames: FrameTable | null = null,
): Promise<{ facts: StoredFacts; frames: FrameTable }> {
  const found = await desk.footage.probe(file.path, tools.signal);
  const told = (_frames: number, share: number | null): void => {
    if (share !== null) tools.progress(hashShare + (1 - hashShare) * share, 1);
  };
  const { table: frames, slow } = knownFrames
    ? { table: knownFrames, slow: null }
    : await desk.footage.indexFrames(file.path, tools.signal, told);
  if (frames.pts.length > 5_000_000) throw trouble('badInput', hostTroubles.tooManyFrames(file.name));
  return { facts: { ...storedFacts(found, frames), slow }, frames };
}

function storedFacts({ needsCopy, capture, ...facts }: FootageFacts, frames: FrameTable): StoredFacts {
  const seconds =
    facts.seconds ?? frameSeconds(frames, lastFrame(frames)) - frameSeconds(frames, frameIndex(0));
  const told = capture ? { capture: [...capture] } : {};
  return { ...facts, seconds, decodable: needsCopy === null, why: needsCopy, ...told };
}

/** An upload has no place of its own: it moves into the library. Everything else stays where it lies. */
async function placeOf(desk: Desk, file: Given, sha256: string): Promise<string> {
  if (file.uploadId === null) return file.path;
  const folder = join(desk.library.layout.clips, sha256);
  await mkdir(folder, { recursive: true });
  const place = join(folder, safeFileName(file.name));
  await moveInto(file.path, place);
  return place;
}

export const clipRelink: CallHandler<'clip.relink'> = async (desk, { clipId, source }) => {
  const clip = known(desk, clipId);
  const file = await given(desk, source);
  const tools: JobTools = { signal: new AbortController().signal, progress: () => undefined };
  try {
    const same =
      file.bytes === clip.bytes &&
      (await desk.footage.contentHash(file.path, tools.signal, () => undefined)) === clip.sha256;
    if (!same) throw trouble('badInput', hostTroubles.otherContent(clip.name, file.name));
    // A clip known only from a review file was never looked at: now its file tells.
    const found = clip.facts.decodable === null ? await read(desk, file, tools) : null;
    const path = await placeOf(desk, file, clip.sha256);
    const seen = { path, fileTime: file.fileTime };
    place(desk, clipId, seen, found?.facts ?? clip.facts, found?.frames ?? null);
    return desk.clips.summary(await settled(desk, clipId));
  } finally {
    if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
  }
};

export function known(desk: Desk, clipId: string): Clip {
  const clip = desk.library.clips.get(clipId);
  if (!clip) throw trouble('notFound', hostTroubles.unknownClip);
  return clip;
}
