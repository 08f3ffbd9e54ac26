import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import { frameTable, type FrameTable } from '../time/frameTable.ts';
import { CaptureFact } from '../review/captureFacts.ts';
import { timeBase } from '../time/timeBase.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { packTicks, unpackTicks } from './ticks.ts';
import { readBody } from './stored.ts';
import { LibraryTrouble } from './trouble.ts';

/** What is known of a clip besides its name, its place and its frames. Format version 2. */
export const StoredFacts = z.strictObject({
  width: z.int(),
  height: z.int(),
  rotation: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
  container: z.string(),
  codec: z.string(),
  pixelFormat: z.string(),
  sound: z.string().nullable(),
  seconds: z.number(),
  /** Whether the window can decode the file as it is; null where nobody looked at the file yet. */
  decodable: z.boolean().nullable(),
  /** Why it cannot: a key of the catalogue. */
  why: z.string().nullable(),
  /** What the file says of the speed at which it was filmed; absent where nobody looked for it. */
  capture: z.array(CaptureFact).max(20).optional(),
  /** Why a working copy would be easier to step through, as a key of the catalogue; absent where nobody looked. */
  slow: z.string().nullable().optional(),
  /** Whether its frames are made of two half-pictures each; absent where nobody looked. */
  interlaced: z.boolean().optional(),
});
export type StoredFacts = z.infer<typeof StoredFacts>;
const factsVersion = 2;

/**
 * What is wanted of a clip's working copy. `asked`: the coach asked for one; `declined`: stopped, or the original was
 * asked back, so that none is made without being asked for; `whenOpened`: it was removed to make room, and is made
 * again when a review with this clip is opened.
 */
const copyWishes = ['asked', 'declined', 'whenOpened'] as const;
type CopyWish = (typeof copyWishes)[number];

export interface WorkingCopy {
  /** File name inside the library's folder of working copies. */
  readonly file: string;
  readonly bytes: number;
  /** Ticks to add to a presentation time of the original to get that of the copy. */
  readonly shift: number;
  /** Pixels of its picture; null where it is that of the clip, rounded up to even sides. */
  readonly size: { readonly width: number; readonly height: number } | null;
}

export interface Clip {
  readonly id: string;
  readonly name: string;
  /** Where the original was last seen; null where the library never had it. */
  readonly path: string | null;
  /**
   * When the file had last been changed when its content was read, milliseconds since 1970. Only tells that the
   * content has to be looked at again; null where the file was never read.
   */
  readonly fileTime: number | null;
  readonly sha256: string;
  readonly bytes: number;
  readonly facts: StoredFacts;
  readonly frameCount: number;
  readonly copy: WorkingCopy | null;
  /** null: as the clip needs. */
  readonly copyWish: CopyWish | null;
  /** Grows with each opening of any clip: the smallest was opened the longest ago. 0: never opened. */
  readonly opened: number;
  /** Each half-picture counts as a frame of its own (`fieldsOf`). */
  readonly fields: boolean;
}

/** Where a clip's file lies, and when it had last been changed when its content was read. */
export interface FileSeen {
  readonly path: string;
  readonly fileTime: number;
}

export interface Clips {
  list(): Clip[];
  get(clipId: string): Clip | null;
  byContent(sha256: string): Clip | null;
  frames(clipId: string): FrameTable;
  /** The same content is the same clip: where it is there already, it is returned as it was. */
  add(clip: NewClip, frames: FrameTable): Clip;
  /** Gives a clip its file, and what the file says of itself. */
  place(clipId: string, file: FileSeen, facts: StoredFacts, frames: FrameTable | null): void;
  /** The content was read again and is the same. */
  setFileTime(clipId: string, fileTime: number): void;
  setCopy(clipId: string, copy: WorkingCopy | null): void;
  setCopyWish(clipId: string, wish: CopyWish | null): void;
  /** The clip was opened now. */
  setOpened(clipId: string): void;
  /** Counts half-pictures or whole frames from now on. Its copy no longer fits and is forgotten. */
  setFields(clipId: string, fields: boolean, frames: FrameTable): void;
  /**
   * Whether any review holds, or ever held, something that lies on this clip's frames: marks, tracks, fits,
   * drawings, a cut, speeds. What was taken out counts too, since undo brings it back.
   */
  everMarked(clipId: string): boolean;
}

/** A clip that comes in, before anything was made of it. */
export type NewClip = Pick<Clip, 'id' | 'name' | 'path' | 'fileTime' | 'sha256' | 'bytes' | 'facts'>;

interface Row {
  id: string;
  name: string;
  path: string | null;
  file_time: number | null;
  sha256: string;
  bytes: number;
  facts: string;
  time_base_num: number;
  time_base_den: number;
  frame_bytes: number;
  copy_file: string | null;
  copy_bytes: number | null;
  copy_shift: number | null;
  copy_width: number | null;
  copy_height: number | null;
  copy_wish: string | null;
  opened: number;
  fields: number;
}

/** The clips of a library: what each is, where it lies, every frame's time, and its working copy. */
export function clipsOf(db: Database, author: string): Clips {
  const columns = `id, name, path, file_time, sha256, bytes, facts, time_base_num, time_base_den,
    length(pts) AS frame_bytes, copy_file, copy_bytes, copy_shift, copy_width, copy_height, copy_wish, opened, fields`;
  const all = db.prepare<[], Row>(`SELECT ${columns} FROM clip WHERE removed = 0 ORDER BY ordinal`);
  const byId = db.prepare<[string], Row>(`SELECT ${columns} FROM clip WHERE id = ? AND removed = 0`);
  const bySha = db.prepare<[string], Row>(`SELECT ${columns} FROM clip WHERE sha256 = ? AND removed = 0`);
  const pts = db.prepare<[string], { num: number; den: number; pts: Buffer }>(
    'SELECT time_base_num AS num, time_base_den AS den, pts FROM clip WHERE id = ? AND removed = 0',
  );
  const insert = db.prepare(
    `INSERT INTO clip (id, author, revision, name, path, file_time, sha256, bytes, facts_version, facts,
       time_base_num, time_base_den, pts) VALUES (?, ?, 1, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const setPlace = db.prepare(
    'UPDATE clip SET path = ?, file_time = ?, facts = ?, revision = revision + 1 WHERE id = ?',
  );
  const setTime = db.prepare('UPDATE clip SET file_time = ? WHERE id = ?');
  const setFrames = db.prepare('UPDATE clip SET time_base_num = ?, time_base_den = ?, pts = ? WHERE id = ?');
  const setCopy = db.prepare(
    `UPDATE clip SET copy_file = ?, copy_bytes = ?, copy_shift = ?, copy_width = ?, copy_height = ?,
       revision = revision + 1 WHERE id = ?`,
  );
  const setWish = db.prepare('UPDATE clip SET copy_wish = ? WHERE id = ?');
  const setOpened = db.prepare('UPDATE clip SET opened = (SELECT max(opened) FROM clip) + 1 WHERE id = ?');
  const setFields = db.prepare('UPDATE clip SET fields = ?, revision = revision + 1 WHERE id = ?');
  const everMarked = db
    .prepare<[string], number>(
      `SELECT EXISTS (
         SELECT 1 FROM entity use WHERE use.kind = 'footage' AND json_extract(use.body, '$.clipId') = ? AND (
           json_array_length(use.body, '$.speed') > 0 OR json_array_length(use.body, '$.runs') > 0
           OR json_extract(use.body, '$.cut') IS NOT NULL
           OR EXISTS (
             SELECT 1 FROM entity thing WHERE thing.review_id = use.review_id AND thing.kind IN ('mark', 'drawing', 'track', 'fit')
               AND json_extract(thing.body, '$.footageId') = use.id)))`,
    )
    .pluck();

  const existing = (clipId: string): Row => {
    const row = byId.get(clipId);
    if (!row) throw new LibraryTrouble('notFound', libraryTroubles.unknownClip);
    return row;
  };

  return {
    list: () => all.all().map(clipOf),
    get(clipId) {
      const row = byId.get(clipId);
      return row ? clipOf(row) : null;
    },
    byContent(sha256) {
      const row = bySha.get(sha256);
      return row ? clipOf(row) : null;
    },
    frames(clipId) {
      const { name } = existing(clipId);
      const row = pts.get(clipId);
      try {
        return frameTable(timeBase(row?.num ?? 0, row?.den ?? 0), unpackTicks(row?.pts ?? Buffer.alloc(0)));
      } catch (error) {
        throw new LibraryTrouble('damaged', libraryTroubles.framesDamaged(name), {
          cause: error,
        });
      }
    },
    add(clip, frames) {
      return db
        .transaction(() => {
          const there = bySha.get(clip.sha256);
          if (there) return clipOf(there);
          const { num, den } = frames.timeBase;
          const facts = JSON.stringify(StoredFacts.parse(clip.facts));
          const { id, name, path, fileTime, sha256, bytes } = clip;
          insert.run(
            id,
            author,
            name,
            path,
            fileTime,
            sha256,
            bytes,
            factsVersion,
            facts,
            num,
            den,
            packTicks(frames.pts),
          );
          return clipOf(existing(clip.id));
        })
        .immediate();
    },
    place(clipId, { path, fileTime }, facts, frames) {
      db.transaction(() => {
        existing(clipId);
        setPlace.run(path, fileTime, JSON.stringify(StoredFacts.parse(facts)), clipId);
        if (frames) setFrames.run(frames.timeBase.num, frames.timeBase.den, packTicks(frames.pts), clipId);
      }).immediate();
    },
    setFileTime(clipId, fileTime) {
      existing(clipId);
      setTime.run(fileTime, clipId);
    },
    setCopy(clipId, copy) {
      existing(clipId);
      const { file = null, bytes = null, shift = null, size = null } = copy ?? {};
      setCopy.run(file, bytes, shift, size?.width ?? null, size?.height ?? null, clipId);
    },
    setCopyWish(clipId, wish) {
      existing(clipId);
      setWish.run(wish, clipId);
    },
    setOpened: (clipId) => void setOpened.run(clipId),
    setFields(clipId, fields, frames) {
      db.transaction(() => {
        existing(clipId);
        setFields.run(fields ? 1 : 0, clipId);
        setFrames.run(frames.timeBase.num, frames.timeBase.den, packTicks(frames.pts), clipId);
        setCopy.run(null, null, null, null, null, clipId);
      }).immediate();
    },
    everMarked: (clipId) => everMarked.get(clipId) === 1,
  };
}

function clipOf(row: Row): Clip {
  const {
    copy_file: file,
    copy_bytes: bytes,
    copy_shift: shift,
    copy_width: width,
    copy_height: height,
  } = row;
  const size = width !== null && height !== null ? { width, height } : null;
  return {
    id: row.id,
    name: row.name,
    path: row.path,
    fileTime: row.file_time,
    sha256: row.sha256,
    bytes: row.bytes,
    facts: readBody(StoredFacts, row.facts, libraryTroubles.clipFacts(row.name)),
    frameCount: row.frame_bytes / 8,
    copy: file !== null && bytes !== null && shift !== null ? { file, bytes, shift, size } : null,
    copyWish: copyWishes.find((wish) => wish === row.copy_wish) ?? null,
    opened: row.opened,
    fields: row.fields === 1,
  };
}
