import { describe, expect, it } from 'vitest';
import {
  containerOf,
  pictureFacts,
  pictureStream,
  probeOutput,
  soundFacts,
  statedSeconds,
} from '../../../src/footage/statedFacts.ts';

const output = (streams: unknown[], format: unknown = {}): ReturnType<typeof probeOutput> =>
  probeOutput(JSON.stringify({ streams, format }));

const video = {
  index: 0,
  codec_type: 'video',
  codec_name: 'h264',
  width: 1920,
  height: 1080,
  pix_fmt: 'yuv420p',
  time_base: '1/600',
};

const facts = (more: object): ReturnType<typeof pictureFacts> => {
  const stream = pictureStream(output([{ ...video, ...more }]));
  if (!stream) throw new Error('no stream');
  return pictureFacts(stream, false);
};

describe('rotation', () => {
  // ffmpeg states the display matrix counter-clockwise; its older tag counts clockwise.
  it.each([
    [-90, 90, 1080, 1920],
    [90, 270, 1080, 1920],
    [180, 180, 1920, 1080],
    [-180, 180, 1920, 1080],
    [-270, 270, 1080, 1920],
    [0, 0, 1920, 1080],
    [-89.6, 90, 1080, 1920],
    [45, 0, 1920, 1080],
  ])('a matrix of %d shows the picture turned clockwise by %d', (rotation, clockwise, width, height) => {
    const found = facts({ side_data_list: [{ side_data_type: 'Display Matrix', rotation }] });
    expect(found).toMatchObject({ rotation: clockwise, width, height, coded: { width: 1920, height: 1080 } });
  });

  it.each([
    ['90', 90],
    ['270', 270],
    ['-90', 270],
    ['nonsense', 0],
  ])('a tag of %s turns by %d', (rotate, clockwise) => {
    expect(facts({ tags: { rotate } }).rotation).toBe(clockwise);
  });
});

describe('pixels', () => {
  it.each([
    ['yuv420p', 8],
    ['yuvj420p', 8],
    ['yuv420p10le', 10],
    ['yuv422p12be', 12],
    ['p010le', 10],
    ['gbrp', 8],
    ['gray10le', 10],
    ['nv12', 8],
  ])('%s has %d bits', (pix_fmt, bits) => {
    expect(facts({ pix_fmt }).bitDepth).toBe(bits);
  });

  it('that are not square widen the upright picture', () => {
    const hdv = { width: 1440, height: 1080, sample_aspect_ratio: '4:3' };
    expect(facts(hdv)).toMatchObject({ width: 1920, height: 1080, pixelShape: [4, 3] });
    const turned = { ...hdv, side_data_list: [{ rotation: -90 }] };
    expect(facts(turned)).toMatchObject({ width: 1080, height: 1920 });
  });

  it.each(['0:1', '1:0', 'N/A', '-4:3', '99999:1', undefined])(
    'of shape %s are taken for square',
    (shape) => {
      expect(facts({ sample_aspect_ratio: shape }).pixelShape).toEqual([1, 1]);
    },
  );
});

describe('other facts', () => {
  it('tell colour where it is stated', () => {
    expect(
      facts({
        color_primaries: 'bt2020',
        color_transfer: 'arib-std-b67',
        color_space: 'bt2020nc',
        color_range: 'tv',
      }).colour,
    ).toEqual({ primaries: 'bt2020', transfer: 'arib-std-b67', matrix: 'bt2020nc', range: 'limited' });
    expect(facts({ color_primaries: 'unknown' }).colour).toEqual({
      primaries: null,
      transfer: null,
      matrix: null,
      range: null,
    });
    expect(facts({ pix_fmt: 'yuvj420p' }).colour.range).toBe('full');
    expect(facts({ color_range: 'pc' }).colour.range).toBe('full');
  });

  it.each([
    ['tt', true],
    ['bt', true],
    ['progressive', false],
    ['unknown', false],
    [undefined, false],
  ])('field order %s: interlaced %s', (field_order, interlaced) => {
    expect(facts({ field_order }).interlaced).toBe(interlaced);
  });

  it('pass over covers, and over sound that nobody can decode', () => {
    const found = output([
      { ...video, disposition: { attached_pic: 1 } },
      { index: 1, codec_type: 'audio', codec_name: 'unknown', channels: 4, sample_rate: '48000' },
      { index: 2, codec_type: 'audio', codec_name: 'aac', channels: 0, sample_rate: '0' },
      { index: 3, codec_type: 'audio', codec_name: 'aac', channels: 1, sample_rate: '44100' },
      { ...video, index: 4 },
      { index: 5, codec_type: 'data' },
    ]);
    expect(pictureStream(found)?.index).toBe(4);
    expect(soundFacts(found)).toEqual({ stream: 3, codec: 'aac', channels: 1, sampleRate: 44100 });
  });

  it('take nothing that is no number for one', () => {
    const found = output([{ ...video, duration: 'N/A', nb_frames: '-3' }], { duration: '12.5' });
    const stream = pictureStream(found);
    expect(stream && statedSeconds(found, stream)).toEqual([12.5]);
    expect(facts({ nb_frames: '-3' }).statedFrames).toBeNull();
    expect(facts({ nb_frames: '300' }).statedFrames).toBe(300);
    expect(facts({ pix_fmt: undefined, codec_name: undefined })).toMatchObject({
      codec: 'unknown',
      bitDepth: null,
    });
  });

  it('name the container', () => {
    const named = (format_name: string, file: string, brand?: string): string =>
      containerOf(output([], { format_name, tags: brand ? { major_brand: brand } : {} }), file);
    const iso = 'mov,mp4,m4a,3gp,3g2,mj2';
    expect(named(iso, 'a.mp4', 'isom')).toBe('mp4');
    expect(named(iso, 'a.mp4', 'qt  ')).toBe('mov');
    expect(named('matroska,webm', 'a.WEBM')).toBe('webm');
    expect(named('matroska,webm', 'a.mkv')).toBe('matroska');
    expect(named('mpegts', 'a.MTS')).toBe('mpegts');
    expect(named('avi', 'a.avi')).toBe('avi');
  });
});
