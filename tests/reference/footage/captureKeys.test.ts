import { execFileSync } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { boxAt, boxesIn, videoTrack, type Box } from '../../../src/footage/container/isoBoxes.ts';
import { indexFrames } from '../../../src/footage/frameIndex.ts';
import { probe } from '../../../src/footage/probe.ts';
import { captureFindings } from '../../../src/review/captureFindings.ts';
import { scratch } from '../../unit/footage/makeFile.ts';
import { leaveBuild, packaged, systemBuild, useBuild, type Build } from './builds.ts';

const system = await systemBuild();
const builds: Build[] = [packaged, ...(system ? [system] : [])];

let room: Awaited<ReturnType<typeof scratch>>;
let plain: Buffer;

const make = (name: string, ...args: string[]): string => {
  const { ffmpeg } = system ?? packaged;
  const picture = ['-f', 'lavfi', '-i', 'testsrc=size=160x120:rate=30:duration=2'];
  const out = ['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p'];
  execFileSync(ffmpeg, ['-v', 'error', '-y', ...picture, ...args.slice(0, -1), ...out, ...args.slice(-1)]);
  return name;
};

beforeAll(async () => {
  room = await scratch();
  make('plain', room.at('plain.mp4'));
  plain = await readFile(room.at('plain.mp4'));
});
afterEach(() => {
  leaveBuild();
});
afterAll(() => room.clear());

/** A box of ISO/IEC 14496-12, 4.2. */
function box(type: string, ...content: Buffer[]): Buffer {
  const body = Buffer.concat(content);
  const head = Buffer.alloc(8);
  head.writeUInt32BE(body.length + 8);
  head.write(type, 4, 'latin1');
  return Buffer.concat([head, body]);
}

const int = (value: number): Buffer => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
};

/**
 * Metadata by keys as Apple's QuickTime File Format Specification lays it out ("Metadata": a `meta` atom with handler
 * `mdta`, `keys` and `ilst`, values with a well-known type: 1 UTF-8, 22 unsigned integer, 23 float of 32 bits, 75
 * unsigned integer of 8 bits), and as the Android platform's writer of MP4 files does.
 */
function byKey(key: string, type: number, value: Buffer): Buffer {
  const handler = Buffer.concat([
    int(0),
    int(0),
    Buffer.from('mdta'),
    int(0),
    int(0),
    int(0),
    Buffer.from([0]),
  ]);
  return box(
    'meta',
    box('hdlr', handler),
    box('keys', int(0), int(1), box('mdta', Buffer.from(key))),
    box('ilst', Buffer.concat([withIndex(box('    ', box('data', int(type), int(0), value)), 1)])),
  );
}

/** The type of an entry of `ilst` is the number of its key. */
function withIndex(entry: Buffer, index: number): Buffer {
  entry.writeUInt32BE(index, 4);
  return entry;
}

const movieOf = (bytes: Buffer): Box => {
  const moov = boxesIn(bytes, 0, bytes.length).find((b) => b.type === 'moov');
  if (!moov) throw new Error('no movie box');
  return moov;
};

/** The plain clip with one more box in its movie box, which stands last. */
async function withMovieBox(name: string, extra: Buffer): Promise<string> {
  const moov = movieOf(plain);
  expect(moov.end).toBe(plain.length);
  const bytes = Buffer.concat([plain, extra]);
  bytes.writeUInt32BE(moov.end - moov.start + extra.length, moov.start);
  await writeFile(room.at(name), bytes);
  return room.at(name);
}

const float = (value: number): Buffer => {
  const bytes = Buffer.alloc(4);
  bytes.writeFloatBE(value);
  return bytes;
};

describe.each(builds)('what files state of their capture speed, read with $name', (build) => {
  it('is nothing in a plain clip', async () => {
    useBuild(build);
    expect((await probe(room.at('plain.mp4'))).capture).toEqual([]);
  });

  // AndroidX Media3, MdtaMetadataEntry.KEY_ANDROID_CAPTURE_FPS, type 23.
  it.each([
    ['a float of 32 bits, as phones write it', 23, float(120)],
    ['text, as it is after other programs copied it', 1, Buffer.from('120.000000')],
  ])('com.android.capture.fps as %s', async (_, type, value) => {
    useBuild(build);
    const file = await withMovieBox('android.mp4', byKey('com.android.capture.fps', type, value));
    const { capture } = await probe(file);
    expect(capture).toEqual([{ fact: 'captureFps', key: 'com.android.capture.fps', fps: 120 }]);
    const [finding] = captureFindings(capture, (await indexFrames(file)).table, false);
    expect(finding).toMatchObject({ source: 'captureFps', fps: 120, plays: expect.closeTo(30, 6) as number });
    expect(finding?.speed?.[0]?.speed).toBeCloseTo(1 / 4, 6);
  });

  it('com.android.capture.fps as ffmpeg itself writes it', async () => {
    useBuild(build);
    const tags = ['-movflags', 'use_metadata_tags', '-metadata', 'com.android.capture.fps=240'];
    make('tagged', ...tags, room.at('tagged.mp4'));
    expect((await probe(room.at('tagged.mp4'))).capture).toEqual([
      { fact: 'captureFps', key: 'com.android.capture.fps', fps: 240 },
    ]);
  });

  it.each([
    ['nought', float(0)],
    ['below nought', float(-240)],
    ['no number', float(NaN)],
    ['without end', float(Infinity)],
  ])('leaves out a capture rate that is %s', async (_, value) => {
    useBuild(build);
    const file = await withMovieBox('odd.mp4', byKey('com.android.capture.fps', 23, value));
    expect((await probe(file)).capture).toEqual([]);
  });

  // Apple, AVFoundation: AVMetadataQuickTimeMetadataKeyFullFrameRatePlaybackIntent.
  it.each([
    [0, 22],
    [1, 22],
    [0, 75],
  ])('com.apple.quicktime.full-frame-rate-playback-intent %i, as type %i', async (value, type) => {
    useBuild(build);
    const key = 'com.apple.quicktime.full-frame-rate-playback-intent';
    const file = await withMovieBox('intent.mp4', byKey(key, type, Buffer.from([value])));
    expect((await probe(file)).capture).toEqual([{ fact: 'playFullRate', key, full: value === 1 }]);
  });

  // ISO/IEC 14496-12, 8.6.6: media_rate_integer and media_rate_fraction of an edit.
  it('an edit list that plays at a quarter, and the frames that keep their own times', async () => {
    useBuild(build);
    const bytes = Buffer.from(plain);
    const trak = videoTrack(bytes, movieOf(bytes));
    const elst = trak && boxAt(bytes, trak, 'edts', 'elst');
    if (!elst) throw new Error('the clip has no edit list');
    bytes.writeUInt32BE(bytes.readUInt32BE(elst.body + 8) * 4, elst.body + 8);
    bytes.writeInt32BE(0x10000 / 4, elst.body + 16);
    await writeFile(room.at('edit.mp4'), bytes);
    const { capture } = await probe(room.at('edit.mp4'));
    expect(capture).toContainEqual({ fact: 'editRates', rates: [0.25] });
    const { table } = await indexFrames(room.at('edit.mp4'));
    expect(table.pts.slice(0, 60)).toEqual((await indexFrames(room.at('plain.mp4'))).table.pts.slice(0, 60));
  });

  it('sound that lasts a quarter of the pictures', async () => {
    useBuild(build);
    const sound = ['-f', 'lavfi', '-i', 'sine=duration=0.5', '-c:a', 'aac'];
    make('short', ...sound, room.at('short.mp4'));
    const { capture } = await probe(room.at('short.mp4'));
    expect(capture).toEqual([
      {
        fact: 'soundLength',
        sound: expect.closeTo(0.5, 1) as number,
        picture: expect.closeTo(2, 1) as number,
      },
    ]);
  });
});
