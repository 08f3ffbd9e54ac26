import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clip } from '../../../scripts/clips/make.ts';
import { farthestKeys, reasonForEase } from '../../../src/footage/decodable.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { copySize, makeWorkingCopy } from '../../../src/footage/workingCopy.ts';
import { ffmpeg, scratch } from './makeFile.ts';

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => {
  room = await scratch();
});
afterAll(() => room.clear());

describe('a clip that steps slowly', () => {
  it('is one of 4K and more, or with key frames farther apart than the source serves', () => {
    const hd = { width: 1920, height: 1080 };
    expect(reasonForEase(hd, farthestKeys)).toBeNull();
    expect(reasonForEase(hd, farthestKeys + 1)).toBe('longGop');
    expect(reasonForEase({ width: 2160, height: 3840 }, 12)).toBe('largePicture');
    expect(reasonForEase({ width: 2704, height: 1520 }, 12)).toBeNull();
  });

  it('is told by its frames: how far they lie from key to key, or to the end', async () => {
    // Made with a key frame every 100: 300 frames.
    expect((await indexFrames((await clip('h264')).path)).keyDistance).toBe(100);
    expect((await indexFrames((await clip('oneFrame')).path)).keyDistance).toBe(1);
    const file = room.at('one key.mp4');
    const settings = ['-c:v', 'libx264', '-preset', 'ultrafast', '-g', '9999', '-sc_threshold', '0'];
    await ffmpeg('-f', 'lavfi', '-i', 'testsrc2=size=64x48:rate=25:duration=12', ...settings, file);
    expect((await indexFrames(file)).keyDistance).toBe(300);
  });
});

describe('the size of a copy', () => {
  it('is the clip’s, evened out, and at most 1920 on the longer side for 4K and more', () => {
    const of = (width: number, height: number) => Object.values(copySize({ width, height }));
    expect(of(1920, 1080)).toEqual([1920, 1080]);
    expect(of(321, 241)).toEqual([322, 242]);
    expect(of(2704, 1520)).toEqual([2704, 1520]);
    expect(of(3840, 2160)).toEqual([1920, 1080]);
    expect(of(2160, 3840)).toEqual([1080, 1920]);
    expect(of(4096, 2160)).toEqual([1920, 1012]);
    expect(of(16_384, 2)).toEqual([1920, 2]);
  });

  it('changes no time: a clip of 4K has all its frames in its copy', async () => {
    const file = room.at('4k.mp4');
    const settings = ['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p'];
    await ffmpeg('-f', 'lavfi', '-i', 'testsrc2=size=3840x2160:rate=30:duration=0.4', ...settings, file);
    const { table } = await indexFrames(file);
    const made = await makeWorkingCopy(file, table, room.at('copy.mp4'));
    expect(made).toMatchObject({ width: 1920, height: 1080 });
    expect((await probe(room.at('copy.mp4'))).picture).toMatchObject({ width: 1920, height: 1080 });
    expect((await indexFrames(room.at('copy.mp4'))).table.pts).toHaveLength(table.pts.length);
  });
});
