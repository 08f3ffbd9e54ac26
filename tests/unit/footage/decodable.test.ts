import { describe, expect, it } from 'vitest';
import { clip, type ClipKind } from '../../../scripts/clips/make.ts';
import { decodableInWindow, type CopyReason } from '../../../src/footage/decodable.ts';
import { probe } from '../../../src/footage/probe.ts';

const expected: Record<ClipKind, CopyReason | null> = {
  h264: null,
  h264Silent: null,
  h264TenBit: 'bitDepth',
  h264M4v: null,
  fps240: null,
  vfr: null,
  rotated90: null,
  rotated180: null,
  rotated270: null,
  editList: null,
  editListPieces: 'editList',
  late: null,
  hevc: 'codec',
  hevcTenBitTurned: 'codec',
  vp8: null,
  vp9: null,
  vp9Rgb: 'pixelFormat',
  vp9Odd: null,
  av1: null,
  av1Mkv: null,
  mkv: null,
  mkvLate: null,
  mpegTs: 'container',
  mpegTsCut: 'container',
  mtsInterlaced: 'container',
  mpeg2Interlaced: 'container',
  proRes: 'codec',
  aviMotionJpeg: 'container',
  aviMpeg4: 'container',
  movOdd: 'codec',
  widePixels: 'pixelShape',
  oneFrame: null,
};

describe('whether the window can decode a clip', () => {
  it.each(Object.entries(expected) as [ClipKind, CopyReason | null][])('%s: %s', async (kind, why) => {
    const facts = await probe((await clip(kind)).path);
    expect(decodableInWindow(facts)).toEqual({ decodable: why === null, why });
  });

  it('is refused for interlaced H.264 in a container that would do', async () => {
    const facts = await probe((await clip('h264')).path);
    const interlaced = { ...facts, picture: { ...facts.picture, interlaced: true } };
    expect(decodableInWindow(interlaced).why).toBe('interlaced');
  });
});
