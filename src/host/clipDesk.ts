import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Clip } from '../library/clips.ts';
import type { Library } from '../library/library.ts';
import type { ClipSummary } from './contract/shapes.ts';
import type { Media } from './media.ts';

/** Reads a file again whose time has changed. Resolves to whether it still has the clip's content. */
export type SameContent = (path: string, clip: Clip) => Promise<boolean>;

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

/**
 * A file that has its size and its time is taken for what it was. One whose time has changed (copied, or replaced) is
 * shown and read again meanwhile; where its content is another, it is missing.
 */
export function clipDesk(
  library: Library,
  media: Media,
  sameContent: SameContent,
  changed: () => void,
): ClipDesk {
  const originals = new Set<string>();
  const copies = new Set<string>();

  const copyPath = (clip: Clip): string | null =>
    clip.copy ? join(library.layout.copies, clip.copy.file) : null;

  const lookAt = async (clip: Clip): Promise<void> => {
    const fileTime = await timeOf(clip.path, clip.bytes);
    note(originals, clip.id, fileTime !== null);
    note(copies, clip.id, clip.copy !== null && (await timeOf(copyPath(clip), clip.copy.bytes)) !== null);
    if (clip.path !== null && fileTime !== null && fileTime !== clip.fileTime) {
      void readAgain(clip, clip.path, fileTime);
    }
  };

  const readAgain = async (clip: Clip, path: string, fileTime: number): Promise<void> => {
    try {
      const same = await sameContent(path, clip);
      if (library.clips.get(clip.id)?.path !== path) return;
      if (same) library.clips.setFileTime(clip.id, fileTime);
      else if (originals.delete(clip.id)) changed();
    } catch {
      // It cannot be read now, or the host is closing: the next look finds out.
    }
  };

  const original = (clip: Clip): string | null => (originals.has(clip.id) ? clip.path : null);
  const copy = (clip: Clip): string | null => (copies.has(clip.id) ? copyPath(clip) : null);
  const shown = (clip: Clip): { path: string; shift: number } | null => {
    const made = copy(clip);
    if (made !== null) return { path: made, shift: clip.copy?.shift ?? 0 };
    const own = original(clip);
    return own !== null && clip.facts.decodable === true ? { path: own, shift: 0 } : null;
  };

  const shownSize = (clip: Clip): ClipSummary['shown'] => {
    const { width, height } = clip.facts;
    return (copy(clip) === null ? null : clip.copy?.size) ?? { width, height };
  };

  const stateOf = (clip: Clip): ClipSummary['state'] => {
    if (original(clip) === null) return 'missing';
    if (clip.facts.decodable === true) return 'ready';
    return copy(clip) === null ? 'needsCopy' : 'workingCopy';
  };

  const summary = (clip: Clip): ClipSummary => {
    const { width, height, rotation, container, codec, pixelFormat, sound, seconds, why } = clip.facts;
    const { slow = null, interlaced, capture } = clip.facts;
    const made = copy(clip) === null ? null : clip.copy;
    const file = shown(clip);
    return {
      id: clip.id,
      name: clip.name,
      sha256: clip.sha256,
      bytes: clip.bytes,
      width,
      height,
      // A working copy is upright already.
      rotation: made === null ? rotation : 0,
      container,
      codec,
      pixelFormat,
      sound,
      frames: clip.frameCount,
      seconds,
      state: stateOf(clip),
      why,
      slow,
      copy: made && { bytes: made.bytes },
      copyWish: clip.copyWish,
      shown: shownSize(clip),
      // Clips of before this was looked at: camcorders' files may be, and the file itself is asked when it matters.
      interlaced: interlaced ?? (why === 'interlaced' || container === 'mpegts'),
      fields: clip.fields,
      mediaId: file && media.idFor(file.path),
      ...(capture ? { capture } : {}),
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

/** When a file was last changed, where it is there with this size; else null. */
async function timeOf(path: string | null, bytes: number): Promise<number | null> {
  if (path === null) return null;
  const found = await stat(path).catch(() => null);
  return found?.isFile() === true && found.size === bytes ? found.mtimeMs : null;
}
