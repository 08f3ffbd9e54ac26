import { execFileSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { bareJpeg } from '../../../src/report/bareJpeg.ts';
import { findPrograms } from '../../../src/footage/programs/find.ts';
import { onePixel } from './sample.ts';

const plain = Buffer.from(onePixel, 'base64');

/** The same picture with segments put in after the start: Exif (APP1), a colour profile (APP2), a comment. */
function dressed(jpeg: Buffer): Buffer {
  const segment = (marker: number, text: string): Buffer => {
    const body = Buffer.from(text, 'latin1');
    const head = Buffer.from([0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 0xff]);
    return Buffer.concat([head, body]);
  };
  return Buffer.concat([
    jpeg.subarray(0, 2),
    segment(0xe1, 'Exif\0\0GPS 52.1 N 4.3 E'),
    segment(0xe2, 'ICC_PROFILE\0'),
    segment(0xfe, 'made by somebody’s phone'),
    jpeg.subarray(2),
  ]);
}

describe('a bare JPEG', () => {
  test('keeps the picture and loses place, device and comment', () => {
    const bare = bareJpeg(dressed(plain));
    expect(bare && Buffer.from(bare.bytes).equals(plain)).toBe(true);
    expect(bare).toMatchObject({ width: 1, height: 1 });
  });

  test('is left as it was where there is nothing beside the picture', () => {
    const bare = bareJpeg(plain);
    expect(bare && Buffer.from(bare.bytes).equals(plain)).toBe(true);
  });

  test('decodes to the same pixels by ffmpeg, which also reads the size', async () => {
    const { ffmpeg } = await findPrograms();
    const run = (args: string[], input?: Buffer): Buffer =>
      execFileSync(ffmpeg, ['-v', 'error', ...args], input ? { input } : {});
    const made = run(['-f', 'lavfi', '-i', 'testsrc2=size=322x182', '-frames:v', '1', '-f', 'mjpeg', '-']);
    const bare = bareJpeg(dressed(made));
    expect(bare).toMatchObject({ width: 322, height: 182 });
    const pixels = (jpeg: Uint8Array): Buffer =>
      run(['-f', 'mjpeg', '-i', '-', '-f', 'rawvideo', '-pix_fmt', 'rgb24', '-'], Buffer.from(jpeg));
    expect(bare && pixels(bare.bytes).equals(pixels(made))).toBe(true);
  });

  test.each([
    ['nothing', Buffer.alloc(0)],
    ['a PNG', Buffer.from([0x89, 0x50, 0x4e, 0x47])],
    ['a JPEG cut off in its tables', plain.subarray(0, 60)],
    ['a length that points outside', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0xff, 0xff, 1, 2])],
    ['a length of nought', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 0, 1, 2])],
    ['no size before the picture', Buffer.from([0xff, 0xd8, 0xff, 0xda, 0, 2, 1, 2])],
  ])('is refused where it is %s', (_what, bytes) => {
    expect(bareJpeg(bytes)).toBeNull();
  });
});
