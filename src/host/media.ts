import { randomBytes } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { extname } from 'node:path';
import type { MediaFile } from './port.ts';

/** Opaque ids for files that a window may read. Random, and gone with the host. */
export interface Media {
  /** The id of a file; the same file keeps its id. */
  idFor(path: string): string;
  find(mediaId: string): Promise<MediaFile | null>;
}

const mimes: Record<string, string> = {
  '.mp4': 'video/mp4',
  '.m4v': 'video/mp4',
  '.mov': 'video/quicktime',
  '.mkv': 'video/x-matroska',
  '.webm': 'video/webm',
  '.avi': 'video/x-msvideo',
  '.mts': 'video/mp2t',
  '.m2ts': 'video/mp2t',
  '.ts': 'video/mp2t',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.jpeg': 'image/jpeg',
  '.webp': 'image/webp',
  '.html': 'text/html; charset=utf-8',
  '.json': 'application/json',
};

export function makeMedia(): Media {
  const ids = new Map<string, string>();
  const paths = new Map<string, string>();
  return {
    idFor(path) {
      const known = ids.get(path);
      if (known) return known;
      const id = randomBytes(24).toString('base64url');
      ids.set(path, id);
      paths.set(id, path);
      return id;
    },
    async find(mediaId) {
      const path = paths.get(mediaId);
      if (path === undefined) return null;
      const found = await stat(path).catch(() => null);
      if (!found?.isFile()) return null;
      const mime = mimes[extname(path).toLowerCase()] ?? 'application/octet-stream';
      return { path, bytes: found.size, mime };
    },
  };
}
