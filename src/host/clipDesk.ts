import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Clip } from '../library/clips.ts';
import type { Library } from '../library/library.ts';
import type { ClipSummary } from './contract/shapes.ts';
import type { Media } from './media.ts';

/** What is known of the clips' files on the disk right now, and the clips as windows see them. */
export interface ClipDesk {
  /** Looks at every clip's file again. */
  look(): Promise<void>;
  /** Looks at one clip's file again. */
  lookAt(clip: Clip): Promise<void>;
  /** Where a clip's original lies, where it is there and unchanged; else null. */
  original(clip: Clip): string | null;
  copy(clip: Clip): string | null;
  /** The file that frames are decoded from, and the ticks to add to the original's times there. */
  shown(clip: Clip): { readonly path: string; readonly shift: number } | null;
  summary(clip: Clip): ClipSummary;
  summaries(): ClipSummary[];
}

export function clipDesk(library: Library, media: Media): ClipDesk {
  const originals = new Set<string>();
  const copies = new Set<string>();

  const copyPath = (clip: Clip): string | null =>
    clip.copy ? join(library.layout.copies, clip.copy.file) : null;

  const lookAt = async (clip: Clip): Promise<void> => {
    note(originals, clip.id, await isThere(clip.path, clip.bytes));
    note(copies, clip.id, clip.copy !== null && (await isThere(copyPath(clip), clip.copy.bytes)));
  };

  const original = (clip: Clip): string | null => (originals.has(clip.id) ? clip.path : null);
  const copy = (clip: Clip): string | null => (copies.has(clip.id) ? copyPath(clip) : null);
  const shown = (clip: Clip): { path: string; shift: number } | null => {
    const made = copy(clip);
    if (made !== null) return { path: made, shift: clip.copy?.shift ?? 0 };
    const own = original(clip);
    return own !== null && clip.facts.decodable === true ? { path: own, shift: 0 } : null;
  };

  const stateOf = (clip: Clip): ClipSummary['state'] => {
    if (original(clip) === null) return 'missing';
    if (clip.facts.decodable === true) return 'ready';
    return copy(clip) === null ? 'needsCopy' : 'workingCopy';
  };

  const summary = (clip: Clip): ClipSummary => {
    const { width, height, rotation, container, codec, pixelFormat, sound, seconds, why } = clip.facts;
    const file = shown(clip);
    return {
      id: clip.id,
      name: clip.name,
      sha256: clip.sha256,
      bytes: clip.bytes,
      width,
      height,
      // A working copy is upright already.
      rotation: copy(clip) === null ? rotation : 0,
      container,
      codec,
      pixelFormat,
      sound,
      frames: clip.frameCount,
      seconds,
      state: stateOf(clip),
      why,
      mediaId: file && media.idFor(file.path),
    };
  };

  return {
    async look() {
      for (const clip of library.clips.list()) await lookAt(clip);
    },
    lookAt,
    original,
    copy,
    shown,
    summary,
    summaries: () => library.clips.list().map(summary),
  };
}

function note(set: Set<string>, id: string, there: boolean): void {
  if (there) set.add(id);
  else set.delete(id);
}

async function isThere(path: string | null, bytes: number): Promise<boolean> {
  if (path === null) return false;
  const found = await stat(path).catch(() => null);
  return found?.isFile() === true && found.size === bytes;
}
