import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Clip } from '../library/clips.ts';
import type { CopiesAbout } from './contract/shapes.ts';
import type { Desk } from './desk.ts';
import { readPreferences } from './preferences.ts';

/** Whether a window has a review with this clip open. */
export function isOpen(desk: Desk, clipId: string): boolean {
  return openClips(desk).has(clipId);
}

function openClips(desk: Desk): ReadonlySet<string> {
  const open = new Set(desk.hub.openReviews());
  return new Set(
    desk.library.reviews
      .list()
      .filter((review) => open.has(review.id))
      .flatMap((review) => review.clipIds),
  );
}

const copied = (desk: Desk): Clip[] => desk.library.clips.list().filter((c) => desk.clips.copy(c) !== null);
const sum = (clips: readonly Clip[]): number => clips.reduce((all, c) => all + (c.copy?.bytes ?? 0), 0);

/** What the working copies take up, and what they may. */
export function copiesAbout(desk: Desk): CopiesAbout {
  const clips = copied(desk);
  const open = openClips(desk);
  return {
    count: clips.length,
    bytes: sum(clips),
    most: readPreferences(desk.library.notes).copiesMost * 1e9,
    open: sum(clips.filter((c) => open.has(c.id))),
  };
}

/**
 * Removes copies until the rest keeps within the limit: those first that were opened the longest ago. A copy stays
 * that a window is looking at, that was just made (`keep`), or whose original is not there.
 */
export async function makeRoom(desk: Desk, keep: string | null = null): Promise<void> {
  const { most } = copiesAbout(desk);
  const left = removable(desk)
    .filter((clip) => clip.id !== keep)
    .sort((a, b) => a.opened - b.opened);
  for (let next = left.shift(); next && sum(copied(desk)) > most; next = left.shift()) {
    await removeCopy(desk, next, 'whenOpened');
  }
}

/** Removes every copy that may go. */
export async function clearCopies(desk: Desk): Promise<void> {
  for (const clip of removable(desk)) await removeCopy(desk, clip, 'whenOpened');
}

function removable(desk: Desk): Clip[] {
  const open = openClips(desk);
  return copied(desk).filter((clip) => !open.has(clip.id) && desk.clips.original(clip) !== null);
}

/** Forgets a copy, then removes its file: cut off in between, the file is swept at the next start. */
export async function removeCopy(desk: Desk, clip: Clip, wish: 'whenOpened' | 'declined'): Promise<void> {
  const path = desk.clips.copy(clip);
  desk.library.clips.setCopy(clip.id, null);
  desk.library.clips.setCopyWish(clip.id, clip.copyWish === 'declined' ? 'declined' : wish);
  // A file that another program holds open (Windows) goes at the next start.
  if (path !== null) await rm(path, { force: true }).catch(() => undefined);
  const now = desk.library.clips.get(clip.id);
  if (now) await desk.clips.lookAt(now);
  desk.hub.libraryChanged();
}

/** Removes files that are no clip's copy: left when a host ended between making a copy and noting it down. */
export async function sweepCopies(desk: Desk): Promise<void> {
  const folder = desk.library.layout.copies;
  const known = new Set(desk.library.clips.list().map((clip) => clip.copy?.file));
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    if (/\.mp4$/.test(name) && !known.has(name)) {
      await rm(join(folder, name), { force: true }).catch(() => undefined);
    }
  }
}
