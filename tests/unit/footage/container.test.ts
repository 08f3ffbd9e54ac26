import { copyFile, open, readFile, truncate, writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip, clipKinds } from '../../../scripts/clips/make.ts';
import { boxAt, boxesIn, edits, videoTrack, type Box } from '../../../src/footage/container/isoBoxes.ts';
import { giveLastPictureItsDuration, lengthen } from '../../../src/footage/container/lastDuration.ts';
import { wholeness, type Wholeness } from '../../../src/footage/container/wholeness.ts';
import { splitJpegs } from '../../../src/footage/jpegStream.ts';
import { scratch } from './makeFile.ts';

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => {
  room = await scratch();
});
afterAll(() => room.clear());

async function lookAt(file: string): Promise<Wholeness> {
  const handle = await open(file, 'r');
  try {
    return await wholeness(handle, (await handle.stat()).size);
  } finally {
    await handle.close();
  }
}

const movieOf = (bytes: Buffer): Box => {
  const moov = boxesIn(bytes, 0, bytes.length).find((b) => b.type === 'moov');
  if (!moov) throw new Error('no movie box');
  return moov;
};

describe('the outermost layer of a file', () => {
  it.each(clipKinds)('is whole in a whole clip: %s', async (kind) => {
    expect((await lookAt((await clip(kind)).path)).missing).toBe(0);
  });

  it('tells how many bytes are missing', async () => {
    for (const kind of ['mkv', 'vp9', 'aviMotionJpeg', 'av1Mkv'] as const) {
      const { path } = await clip(kind);
      await copyFile(path, room.at('cut'));
      const { length } = await readFile(path);
      await truncate(room.at('cut'), length - 1234);
      expect([kind, (await lookAt(room.at('cut'))).missing]).toEqual([kind, 1234]);
    }
  });

  it('counts the pieces of an edit list, empty edits not counted', async () => {
    expect((await lookAt((await clip('h264')).path)).editPieces).toBe(1);
    expect((await lookAt((await clip('late')).path)).editPieces).toBe(1);
    expect((await lookAt((await clip('editListPieces')).path)).editPieces).toBe(2);
    expect((await lookAt((await clip('mkv')).path)).editPieces).toBeNull();
  });

  it('knows a Matroska segment of unknown length, and a RIFF that was never closed', async () => {
    // EBML header of 3 bytes, then a Segment whose length is all ones (RFC 8794, 6.2).
    const segment = [
      0x1a, 0x45, 0xdf, 0xa3, 0x83, 1, 2, 3, 0x18, 0x53, 0x80, 0x67, 0x01, 255, 255, 255, 255, 255, 255, 255,
    ];
    await writeFile(room.at('live.mkv'), Buffer.from([...segment, 0, 0, 0, 0]));
    expect((await lookAt(room.at('live.mkv'))).missing).toBe(0);
    await writeFile(room.at('open.avi'), Buffer.from('RIFF\xff\xff\xff\xffAVI LIST0000', 'latin1'));
    expect((await lookAt(room.at('open.avi'))).missing).toBe(0);
  });

  it('never fails on bytes that make no sense', async () => {
    const { path } = await clip('oneFrame');
    const whole = await readFile(path);
    let state = 5;
    for (let round = 0; round < 300; round++) {
      const bytes = Buffer.from(whole);
      for (let i = 0; i < 6; i++) {
        state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
        bytes[state % bytes.length] = state >>> 24;
      }
      await writeFile(room.at('noise.mp4'), bytes);
      const seen = await lookAt(room.at('noise.mp4'));
      expect(seen.missing).toBeGreaterThanOrEqual(0);
      const moov = boxesIn(bytes, 0, bytes.length).find((b) => b.type === 'moov');
      if (moov) lengthen(bytes, moov);
    }
  });
});

describe('the last picture of a copy', () => {
  it('is given the duration of the one before, and the edit list reaches beyond it', async () => {
    const bytes = await readFile((await clip('h264Silent')).path);
    const moov = movieOf(bytes);
    const trak = videoTrack(bytes, moov);
    const stts = trak && boxAt(bytes, trak, 'mdia', 'minf', 'stbl', 'stts');
    if (!trak || !stts) throw new Error('no track');
    // One run of 240 pictures of 512 ticks; made into 239 of them is not possible without growing the table.
    expect([bytes.readUInt32BE(stts.body + 4), bytes.readUInt32BE(stts.body + 12)]).toEqual([1, 512]);
    expect(lengthen(bytes, moov)).toBe(false);
    bytes.writeUInt32BE(1, stts.body + 8);
    bytes.writeUInt32BE(0, stts.body + 12);
    const before = edits(bytes, trak).at(-1)?.duration ?? NaN;
    expect(lengthen(bytes, moov)).toBe(true);
    expect(bytes.readUInt32BE(stts.body + 12)).toBe(512);
    expect(edits(bytes, trak).at(-1)?.duration).toBe(before + 40);
  });

  it('is left alone in a sound file and in one that is no movie', async () => {
    for (const kind of ['vfr', 'rotated90'] as const) {
      const { path } = await clip(kind);
      await copyFile(path, room.at('same'));
      await giveLastPictureItsDuration(room.at('same'));
      expect((await readFile(room.at('same'))).equals(await readFile(path))).toBe(true);
    }
    await writeFile(room.at('text'), 'not a movie at all, only text');
    await giveLastPictureItsDuration(room.at('text'));
    expect(await readFile(room.at('text'), 'utf8')).toBe('not a movie at all, only text');
  });
});

describe('a stream of JPEGs', () => {
  // SOI, a comment that holds an EOI, a scan with stuffed and restart bytes, EOI (ITU-T T.81, annex B).
  const one = Buffer.from([
    ...[0xff, 0xd8, 0xff, 0xfe, 0, 4, 0xff, 0xd9, 0xff, 0xda, 0, 2],
    ...[1, 0xff, 0, 2, 0xff, 0xd3, 3, 0xff, 0xff, 0xd9],
  ]);
  it('is taken apart at the right places', () => {
    expect(splitJpegs(Buffer.concat([one, one, one])).map((b) => b.length)).toEqual([22, 22, 22]);
  });
  it('gives no picture that is not whole', () => {
    for (let cut = 0; cut < one.length; cut++) {
      expect(splitJpegs(Buffer.concat([one, one.subarray(0, cut)]))).toHaveLength(1);
    }
    expect(splitJpegs(Buffer.from('nothing of the kind'))).toEqual([]);
    expect(splitJpegs(Buffer.alloc(0))).toEqual([]);
  });
});
