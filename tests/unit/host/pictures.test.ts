import { createCanvas } from '@napi-rs/canvas';
import { readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { pictureKind, pictureSize } from '../../../src/host/pictureFacts.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

/** Pictures drawn and written by another program's encoders. */
const drawn = {
  'image/png': createCanvas(37, 21).toBuffer('image/png'),
  'image/jpeg': createCanvas(640, 11).toBuffer('image/jpeg'),
  'image/webp': createCanvas(5, 300).toBuffer('image/webp'),
};

/** A JPEG with an Exif block in front that says how the camera was held (CIPA DC-008, 4.6.4 and 4.6.5). */
function heldAs(orientation: number): Buffer {
  const exif = Buffer.from('Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\0\0\0\0\0\0\0', 'latin1');
  exif.writeUInt16BE(orientation, 24);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(exif.length + 2, 2);
  return Buffer.concat([drawn['image/jpeg'].subarray(0, 2), head, exif, drawn['image/jpeg'].subarray(2)]);
}

const keep = async (t: TestHost, name: string, bytes: Uint8Array, page = 1) => {
  const path = join(t.files, name);
  await writeFile(path, bytes);
  return callHandlers['picture.keep'](t.desk, { source: { path }, page });
};

describe('what a picture is', () => {
  test.each([
    ['image/png', 37, 21],
    ['image/jpeg', 640, 11],
    ['image/webp', 5, 300],
  ] as const)('%s', (mime, width, height) => {
    expect(pictureKind(drawn[mime])?.mime).toBe(mime);
    expect(pictureSize(drawn[mime])).toEqual({ width, height });
  });

  test.each([
    [1, 640, 11],
    [3, 640, 11],
    [6, 11, 640],
    [8, 11, 640],
  ])('a photo held as %i is measured upright', (orientation, width, height) => {
    expect(pictureSize(heldAs(orientation))).toEqual({ width, height });
  });

  test.each<[string, Buffer]>([
    ['nothing', Buffer.alloc(0)],
    ['text', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>')],
    ['a GIF', Buffer.from('GIF89a\x01\0\x01\0', 'latin1')],
    ['a PDF', Buffer.from('%PDF-1.7')],
    ['sound in the same container as WebP', Buffer.from('RIFF\0\0\0\0WAVEfmt ', 'latin1')],
  ])('%s is none', (_name, bytes) => {
    expect(pictureKind(bytes)).toBeNull();
  });
});

test('a picture is kept by content, once, and served under its kind', async () => {
  const t = await hosts.fresh();
  const one = await keep(t, 'map.bin', drawn['image/png']);
  expect(one).toMatchObject({ name: 'map.bin', width: 37, height: 21 });
  const two = await keep(t, 'the same.png', drawn['image/png']);
  expect(two.pictureId).toBe(one.pictureId);
  expect(await readdir(join(t.folder, 'pictures'))).toEqual([`${one.pictureId}.png`]);
  expect(await t.host.media(one.mediaId)).toMatchObject({
    mime: 'image/png',
    bytes: drawn['image/png'].length,
  });
  const again = await hosts.reopen(t);
  const { mediaId } = await callHandlers['picture.media'](again.desk, { pictureId: one.pictureId });
  expect(mediaId).not.toBe(one.mediaId);
  expect(await again.host.media(mediaId)).not.toBeNull();
  expect(await again.host.media(one.mediaId)).toBeNull();
});

test.each<[string, Buffer]>([
  ['a picture cut short', drawn['image/png'].subarray(0, 18)],
  ['a signature and nothing else', Buffer.from([0xff, 0xd8, 0xff, 0xe0])],
  ['no picture', Buffer.from('Dear diary')],
  ['one that says it is huge', sized(0x7fffffff, 0x7fffffff)],
  ['one of 120 million pixels and more', sized(19_000, 7_000)],
  ['a photo of a kind that windows do not show', heic()],
])('%s is refused, and nothing is kept', async (_name, bytes) => {
  const t = await hosts.fresh();
  await expect(keep(t, 'map.png', bytes)).rejects.toMatchObject({
    code: 'badInput',
    message: expect.stringContaining('map.png'),
  });
  expect(await readdir(join(t.folder, 'pictures'))).toEqual([]);
  expect(t.faults).toEqual([]);
});

test('a picture that is not there is told', async () => {
  const t = await hosts.fresh();
  expect(() => callHandlers['picture.media'](t.desk, { pictureId: 'none' })).toThrow('no such picture');
});

/** A PNG whose header claims a size. */
function sized(width: number, height: number): Buffer {
  const bytes = Buffer.from(drawn['image/png']);
  bytes.writeUInt32BE(width, 16);
  bytes.writeUInt32BE(height, 20);
  return bytes;
}

/** What a phone's HEIC file begins with (ISO/IEC 14496-12, 4.3: a file type box of the brand `heic`). */
function heic(): Buffer {
  return Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1');
}

test('a photo of a kind that windows do not show is told what to do', async () => {
  await expect(keep(await hosts.fresh(), 'map.heic', heic())).rejects.toThrow(/HEIC.* as JPEG/);
});
