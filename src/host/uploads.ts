import { mkdir, readdir, rm, stat, statfs } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { hostTroubles } from '../words/hostTroubles.ts';
import type { Layout } from '../library/layout.ts';
import { safeFileName } from './fileName.ts';
import { trouble } from './troubles.ts';

/** A file that has arrived whole. Whoever takes it moves it away or removes it. */
export interface Arrived {
  readonly path: string;
  readonly name: string;
}

/** Files that a window sends in. The shell writes the bytes; this room says where and how many. */
export interface Uploads {
  begin(name: string, bytes: number): Promise<string>;
  target(uploadId: string): { readonly path: string; readonly bytes: number } | null;
  ended(uploadId: string, complete: boolean): Promise<void>;
  /** An upload that arrived whole. Throws `notFound`. */
  arrived(uploadId: string): Arrived;
  /** To be called when the bytes were moved away or are not wanted any more. */
  forget(uploadId: string): Promise<void>;
}

interface Upload extends Arrived {
  readonly bytes: number;
  readonly begunAt: number;
  whole: boolean;
}

export interface UploadOptions {
  readonly folder: string;
  readonly newId: () => string;
  readonly clock: () => number;
  readonly largest: number;
  /** How many may be begun and not yet taken. */
  readonly most?: number;
  /** After how long an upload that was begun and never ended gives its place free, milliseconds. */
  readonly abandonedAfter?: number;
}

export function makeUploads(options: UploadOptions): Uploads {
  const { folder, newId, clock, largest, most = 40, abandonedAfter = 6 * 3600_000 } = options;
  const uploads = new Map<string, Upload>();

  const forget = async (uploadId: string): Promise<void> => {
    const upload = uploads.get(uploadId);
    uploads.delete(uploadId);
    if (upload) await rm(dirname(upload.path), { recursive: true, force: true });
  };

  return {
    forget,
    async begin(name, bytes) {
      if (bytes > largest) throw trouble('badInput', hostTroubles.uploadTooLarge(name, bytes, largest));
      if (bytes === 0) throw trouble('badInput', hostTroubles.emptyFile(name));
      for (const [id, upload] of uploads) if (upload.begunAt < clock() - abandonedAfter) await forget(id);
      if (uploads.size >= most) throw trouble('conflict', hostTroubles.tooManyUploads(most));
      const disk = await statfs(folder);
      const free = disk.bavail * disk.bsize;
      if (bytes > free) throw trouble('noSpace', hostTroubles.uploadNoSpace(name, bytes, free));
      const uploadId = newId();
      // A folder for each, so that the file goes by its own name in whatever is said of it.
      const own = join(folder, uploadId);
      await mkdir(own);
      uploads.set(uploadId, {
        path: join(own, safeFileName(name)),
        name,
        bytes,
        begunAt: clock(),
        whole: false,
      });
      return uploadId;
    },
    target(uploadId) {
      const upload = uploads.get(uploadId);
      return upload && !upload.whole ? { path: upload.path, bytes: upload.bytes } : null;
    },
    async ended(uploadId, complete) {
      const upload = uploads.get(uploadId);
      if (!upload || upload.whole) return;
      const found = await stat(upload.path).catch(() => null);
      if (!complete || found?.size !== upload.bytes) {
        await forget(uploadId);
        if (complete) throw trouble('badInput', hostTroubles.uploadCutShort(upload.name));
        return;
      }
      upload.whole = true;
    },
    arrived(uploadId) {
      const upload = uploads.get(uploadId);
      if (!upload?.whole) throw trouble('notFound', hostTroubles.unknownUpload);
      return { path: upload.path, name: upload.name };
    },
  };
}

/** Throws away what an earlier host left half done: uploads, and files under a temporary name. */
export async function sweep(layout: Layout): Promise<void> {
  await sweepFolder(layout.incoming, () => true);
  const unfinished = (name: string): boolean => /\.(part|unfinished)$/.test(name);
  for (const folder of [layout.copies, layout.pictures, layout.reports, layout.clips]) {
    await sweepFolder(folder, unfinished);
  }
}

async function sweepFolder(folder: string, unwanted: (name: string) => boolean): Promise<void> {
  for (const name of (await readdir(folder)).filter(unwanted)) {
    await rm(join(folder, name), { recursive: true, force: true });
  }
}
