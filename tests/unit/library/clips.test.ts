import Sqlite from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { NewClip } from '../../../src/library/clips.ts';
import { packTicks, unpackTicks } from '../../../src/library/ticks.ts';
import { LibraryTrouble } from '../../../src/library/trouble.ts';
import { frameTable } from '../../../src/time/frameTable.ts';
import { timeBase } from '../../../src/time/timeBase.ts';
import { testFolders } from './folders.ts';

const folders = testFolders();

const frames = frameTable(timeBase(1, 90_000), [-3003, 0, 3003, 6007]);
/** A clip of which nothing was made yet. */
const bare = { copy: null, copyWish: null, opened: 0, fields: false } as const;
const clip = (id: string, sha: string): NewClip => ({
  id,
  name: `${id}.mp4`,
  path: `/somewhere/${id}.mp4`,
  fileTime: 1_750_000_000_123.5,
  sha256: sha.repeat(64),
  bytes: 5_000_000_000,
  facts: {
    width: 1920,
    height: 1080,
    rotation: 90,
    container: 'mov',
    codec: 'hevc',
    pixelFormat: 'yuv420p10le',
    sound: 'aac',
    seconds: 12.5,
    decodable: false,
    why: 'codec',
  },
});

test('ticks go through bytes and back', () => {
  fc.assert(
    fc.property(fc.array(fc.maxSafeInteger()), (ticks) => {
      // Minus zero cannot be a tick that was read anywhere; whole numbers have one zero.
      const plain = ticks.map((t) => t + 0);
      expect(unpackTicks(packTicks(plain))).toEqual(plain);
    }),
  );
  expect(() => unpackTicks(Buffer.alloc(12))).toThrow(RangeError);
});

describe('clips', () => {
  test('come back as they were, after a restart too', () => {
    const library = folders.library();
    const added = library.clips.add(clip('c1', 'a'), frames);
    expect(added).toMatchObject({ ...clip('c1', 'a'), frameCount: 4, ...bare });
    library.clips.setCopy('c1', { file: 'c1.mp4', bytes: 7, shift: 3003, size: { width: 4, height: 2 } });
    library.clips.setCopyWish('c1', 'asked');
    library.clips.setOpened('c1');
    folders.close(library);
    const reopened = folders.library(library.layout.folder);
    expect(reopened.clips.list()).toEqual([
      {
        ...clip('c1', 'a'),
        frameCount: 4,
        copy: { file: 'c1.mp4', bytes: 7, shift: 3003, size: { width: 4, height: 2 } },
        copyWish: 'asked',
        opened: 1,
        fields: false,
      },
    ]);
    expect(reopened.clips.frames('c1')).toEqual(frames);
  });

  test('the same content is the same clip', () => {
    const { clips } = folders.library();
    clips.add(clip('c1', 'a'), frames);
    expect(clips.add({ ...clip('c2', 'a'), name: 'copy of it.mp4' }, frames).id).toBe('c1');
    expect(clips.list()).toHaveLength(1);
    expect(clips.byContent('a'.repeat(64))?.id).toBe('c1');
    expect(clips.byContent('b'.repeat(64))).toBeNull();
  });

  test('a file found again takes its place, with what it says of itself', () => {
    const { clips } = folders.library();
    clips.add({ ...clip('c1', 'a'), path: null }, frames);
    const later = frameTable(timeBase(1, 30), [0, 1]);
    clips.place(
      'c1',
      { path: '/elsewhere/x.mov', fileTime: 7 },
      { ...clip('c1', 'a').facts, decodable: true, why: null },
      later,
    );
    expect(clips.get('c1')).toMatchObject({
      path: '/elsewhere/x.mov',
      fileTime: 7,
      frameCount: 2,
      facts: { why: null },
    });
    expect(clips.frames('c1')).toEqual(later);
  });

  test.each([
    ['frame times cut short', 'UPDATE clip SET pts = substr(pts, 1, 13)', 'frames'],
    [
      'frame times out of order',
      'UPDATE clip SET pts = CAST(substr(pts, 17, 8) || substr(pts, 1, 8) AS BLOB)',
      'frames',
    ],
    ['a time base of nothing', 'UPDATE clip SET time_base_den = 0', 'frames'],
    ['facts that are no JSON', "UPDATE clip SET facts = '{'", 'get'],
  ] as const)('%s: a clear error that names the clip', (_name, sql, read) => {
    const library = folders.library();
    library.clips.add(clip('c1', 'a'), frames);
    folders.close(library);
    const db = new Sqlite(library.layout.database);
    db.exec(sql);
    db.close();
    const reopened = folders.library(library.layout.folder);
    let error: unknown;
    try {
      reopened.clips[read]('c1');
    } catch (e) {
      error = e;
    }
    expect(error).toBeInstanceOf(LibraryTrouble);
    expect(error).toMatchObject({ code: 'damaged', message: expect.stringContaining('c1.mp4') });
  });
});
