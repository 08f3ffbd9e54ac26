import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { Clip } from '../library/clips.ts';
import type { ReviewState } from '../review/entities.ts';
import { hostTroubles } from '../words/hostTroubles.ts';
import type { JobReport } from './contract/calls.ts';
import type { ClipSummary } from './contract/shapes.ts';
import { copiesAbout, isOpen, makeRoom } from './copyStore.ts';
import type { Desk } from './desk.ts';
import type { JobRun } from './jobQueue.ts';
import { trouble } from './troubles.ts';

/** The order in which copies wait, kept so that it outlives the host. */
const noteName = 'copyQueue';
const noteVersion = 1;
const CopyOrder = z.strictObject({ clipIds: z.array(z.string()) });

const isCopying = (job: JobReport): boolean =>
  job.name === 'clip.workingCopy' && (job.state === 'waiting' || job.state === 'running');

/** Whether the window cannot show the clip, or steps through it slowly, without a copy. */
const callsForCopy = (clip: Clip): boolean =>
  clip.facts.decodable !== true || (clip.facts.slow ?? null) !== null;

/** Whether a copy is to be made now without anybody asking; `opening`: a review with this clip was opened. */
function wantsCopy(desk: Desk, clip: Clip, opening: boolean): boolean {
  if (desk.clips.original(clip) === null || desk.clips.copy(clip) !== null) return false;
  if (clip.copyWish === 'asked') return true;
  if (clip.copyWish === 'declined') return false;
  return callsForCopy(clip) && (clip.copyWish === null || opening);
}

/** Queues the working copy of a clip that is to have one and has none. */
export function queueCopy(desk: Desk, clip: Clip, opening = false): void {
  if (wantsCopy(desk, clip, opening)) desk.jobs.start('clip.workingCopy', copyRun(desk, clip));
}

/** After a start: first what waited when the last host ended, in its order, then what else is to have a copy. */
export function resumeCopies(desk: Desk): void {
  const { clips } = desk.library;
  for (const clipId of orderKept(desk)) {
    const clip = clips.get(clipId);
    if (clip) queueCopy(desk, clip, clip.copyWish === 'whenOpened');
  }
  for (const clip of clips.list()) queueCopy(desk, clip);
}

function orderKept(desk: Desk): readonly string[] {
  try {
    return desk.library.notes.read(noteName, noteVersion, CopyOrder)?.clipIds ?? [];
  } catch {
    // A damaged note costs the order, not the copies: each clip says itself what it is to have.
    return [];
  }
}

const lastOrder = new WeakMap<Desk, string>();

/** Writes down which copies wait, where that has changed. */
export function keepOrder(desk: Desk): void {
  const clipIds = desk.jobs
    .list()
    .filter(isCopying)
    .flatMap((job) => (job.subject === null ? [] : [job.subject]));
  const text = clipIds.join(' ');
  if (text === (lastOrder.get(desk) ?? '')) return;
  desk.library.notes.write(noteName, noteVersion, { clipIds });
  lastOrder.set(desk, text);
}

/** A copy that was stopped is not begun again until it is asked for. */
export function copyDeclined(desk: Desk, job: JobReport): void {
  if (!isCopying(job) || job.subject === null) return;
  desk.library.clips.setCopyWish(job.subject, 'declined');
  desk.hub.libraryChanged();
}

/** Stops the copy of a clip that waits or is being made, without anything being declined. */
export function dropCopyJob(desk: Desk, clipId: string): void {
  for (const job of desk.jobs.list()) if (isCopying(job) && job.subject === clipId) desk.jobs.cancel(job.id);
}

/** A review was opened: its clips are the latest in use, and copies that made room come back. */
export function clipsOpened(desk: Desk, { footage }: ReviewState): void {
  for (const clipId of new Set(footage.map((use) => use.clipId))) {
    desk.library.clips.setOpened(clipId);
    const clip = desk.library.clips.get(clipId);
    if (clip) queueCopy(desk, clip, true);
  }
}

/** The making of a clip's working copy, ready to wait its turn. */
export function copyRun(desk: Desk, { id: clipId, name }: Clip): JobRun<{ clip: ClipSummary }> {
  const known = (): Clip => {
    const clip = desk.library.clips.get(clipId);
    if (!clip) throw trouble('notFound', hostTroubles.unknownClip);
    return clip;
  };
  return {
    about: name,
    subject: clipId,
    lane: 'copy',
    key: `copy ${clipId}`,
    async run({ signal, progress }) {
      const clip = known();
      if (!roomFor(desk, clip)) {
        desk.library.clips.setCopyWish(clipId, 'whenOpened');
        return { clip: desk.clips.summary(known()) };
      }
      const from = desk.clips.original(clip);
      if (from === null) throw trouble('notFound', hostTroubles.clipFileMissing(name, clip.path));
      const frames = desk.library.clips.frames(clipId);
      // Another name for other frames, so that no window goes on reading what it had open.
      const file = clip.fields ? `${clipId}-fields.mp4` : `${clipId}.mp4`;
      const folder = desk.library.layout.copies;
      await mkdir(folder, { recursive: true });
      const to = join(folder, file);
      const { bytes, shift, width, height } = await desk.footage.makeWorkingCopy(
        from,
        to,
        frames,
        clip.fields,
        signal,
        progress,
      );
      // Half-pictures were chosen, or given up, while the last check ran: the copy is one of other frames.
      if (known().fields !== clip.fields) throw trouble('conflict', hostTroubles.framesChanged(name));
      const reduced = width < clip.facts.width || height < clip.facts.height;
      desk.library.clips.setCopy(clipId, { file, bytes, shift, size: reduced ? { width, height } : null });
      if (clip.copyWish === 'whenOpened') {
        desk.library.clips.setCopyWish(clipId, callsForCopy(clip) ? null : 'asked');
      }
      await desk.clips.lookAt(known());
      await makeRoom(desk, clipId);
      desk.hub.libraryChanged();
      return { clip: desk.clips.summary(known()) };
    },
  };
}

/** A copy that nobody asked for and nobody looks at does not push out another: it is made when it is needed. */
function roomFor(desk: Desk, clip: Clip): boolean {
  if (clip.copyWish === 'asked' || isOpen(desk, clip.id)) return true;
  const { bytes, most } = copiesAbout(desk);
  return bytes < most;
}
