/** How one kind of clip is made. Every picture shows its own index in presentation order, counted from 0. */
export interface ClipRecipe {
  /** Name of the file's ending. */
  readonly ending: string;
  /** Upright size. */
  readonly width: number;
  readonly height: number;
  readonly frames: number;
  /** Rate of the raw pictures as a fraction; with `ticks` it is the time base turned over. */
  readonly rate: string;
  /** Time of picture N as an expression in ticks of 1/rate; N where absent. */
  readonly ticks?: string;
  readonly encode: readonly string[];
  readonly sound?: readonly string[];
  /** Clockwise turn for display, written into the track header; the coded picture is turned the other way. */
  readonly turn?: 90 | 180 | 270;
  /** Pictures that the edit list hides, in runs of presentation order before any is hidden: [from, until). */
  readonly hidden?: readonly (readonly [number, number])[];
  /** Ticks of the track per picture, for the edit list. */
  readonly track?: number;
  /** Whole pictures before the first key frame that is kept: their bytes are cut off the front of the file. */
  readonly cutHead?: number;
}

const h264 = ['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-pix_fmt', 'yuv420p'];
const bFrames = ['-bf', '3', '-b_strategy', '0', '-g', '100'];
const aac = ['-c:a', 'aac', '-b:a', '64k'];
const opus = ['-c:a', 'libopus', '-b:a', '48k'];
const hevc = (more: string): string[] => [
  ...['-c:v', 'libx265', '-preset', 'ultrafast', '-crf', '22', '-bf', '3', '-tag:v', 'hvc1'],
  ...['-x265-params', `log-level=error:keyint=60:b-adapt=0:bframes=3${more}`],
];
const size = { width: 320, height: 240 } as const;
const wide = { width: 640, height: 360 } as const;
// Uneven like a phone's clock, with a hole of half a second and a slower stretch at the end.
const uneven = 'N*20+4*mod(N*7,3)+gt(N,120)*310+max(0,N-200)*5';

export const clipRecipes = {
  h264: {
    ...wide,
    ending: 'mp4',
    frames: 300,
    rate: '30000/1001',
    encode: [...h264, ...bFrames],
    sound: aac,
  },
  h264Silent: { ...size, ending: 'mp4', frames: 240, rate: '25', encode: [...h264, ...bFrames] },
  h264TenBit: {
    ...size,
    ending: 'mp4',
    frames: 240,
    rate: '50',
    encode: ['-c:v', 'libx264', '-preset', 'veryfast', '-crf', '20', '-pix_fmt', 'yuv420p10le', ...bFrames],
    sound: aac,
  },
  h264M4v: { ...size, ending: 'm4v', frames: 200, rate: '24000/1001', encode: [...h264, ...bFrames] },
  fps240: { ...size, ending: 'mp4', frames: 300, rate: '240', encode: [...h264, ...bFrames], sound: aac },
  vfr: {
    ...size,
    ending: 'mp4',
    frames: 280,
    rate: '600',
    ticks: uneven,
    encode: [...h264, ...bFrames],
    sound: aac,
  },
  rotated90: {
    width: 360,
    height: 640,
    ending: 'mp4',
    frames: 240,
    rate: '30',
    turn: 90,
    encode: [...h264, ...bFrames],
    sound: aac,
  },
  rotated180: {
    ...size,
    ending: 'mov',
    frames: 200,
    rate: '30',
    turn: 180,
    encode: [...h264, ...bFrames],
  },
  rotated270: {
    width: 240,
    height: 320,
    ending: 'mp4',
    frames: 200,
    rate: '30',
    turn: 270,
    encode: [...h264, ...bFrames],
  },
  editList: {
    ...size,
    ending: 'mp4',
    frames: 240,
    rate: '25',
    track: 512,
    hidden: [
      [0, 33],
      [273, 280],
    ],
    encode: [...h264, ...bFrames],
    sound: aac,
  },
  editListPieces: {
    ...size,
    ending: 'mov',
    frames: 220,
    rate: '25',
    track: 512,
    hidden: [
      [0, 12],
      [112, 150],
      [270, 280],
    ],
    encode: [...h264, ...bFrames],
  },
  late: {
    ...size,
    ending: 'mp4',
    frames: 240,
    rate: '600',
    ticks: 'N*24+433',
    encode: [...h264, ...bFrames],
    sound: aac,
  },
  hevc: {
    ...wide,
    ending: 'mp4',
    frames: 240,
    rate: '60',
    encode: [...hevc(''), '-pix_fmt', 'yuv420p'],
    sound: aac,
  },
  hevcTenBitTurned: {
    width: 240,
    height: 320,
    ending: 'mov',
    frames: 240,
    rate: '600',
    ticks: 'N*10+2*mod(N*5,3)',
    turn: 90,
    encode: [...hevc(''), '-pix_fmt', 'yuv420p10le'],
    sound: aac,
  },
  vp8: {
    ...size,
    ending: 'webm',
    frames: 200,
    rate: '30',
    encode: ['-c:v', 'libvpx', '-b:v', '1M', '-deadline', 'realtime', '-cpu-used', '5', '-auto-alt-ref', '1'],
    sound: opus,
  },
  vp9: {
    ...size,
    ending: 'webm',
    frames: 240,
    rate: '30',
    encode: [
      ...['-c:v', 'libvpx-vp9', '-b:v', '1M', '-deadline', 'good', '-cpu-used', '5', '-row-mt', '1'],
      ...['-auto-alt-ref', '1', '-lag-in-frames', '16', '-g', '100', '-pix_fmt', 'yuv420p'],
    ],
    sound: opus,
  },
  /** Kept as red, green and blue: no chroma to take for granted. */
  vp9Rgb: {
    ...size,
    ending: 'webm',
    frames: 120,
    rate: '30',
    encode: [
      '-c:v',
      'libvpx-vp9',
      '-b:v',
      '1M',
      '-deadline',
      'realtime',
      '-cpu-used',
      '6',
      '-pix_fmt',
      'gbrp',
    ],
  },
  vp9Odd: {
    width: 321,
    height: 241,
    ending: 'webm',
    frames: 200,
    rate: '25',
    encode: [
      '-c:v',
      'libvpx-vp9',
      '-b:v',
      '1M',
      '-deadline',
      'realtime',
      '-cpu-used',
      '6',
      '-pix_fmt',
      'yuv420p',
    ],
  },
  av1: {
    ...size,
    ending: 'mp4',
    frames: 240,
    rate: '30',
    encode: ['-c:v', 'libsvtav1', '-preset', '9', '-crf', '40', '-g', '60', '-pix_fmt', 'yuv420p'],
    sound: aac,
  },
  av1Mkv: {
    ...size,
    ending: 'mkv',
    frames: 200,
    rate: '60',
    encode: ['-c:v', 'libsvtav1', '-preset', '9', '-crf', '40', '-g', '60', '-pix_fmt', 'yuv420p'],
  },
  mkv: {
    ...size,
    ending: 'mkv',
    frames: 280,
    rate: '600',
    ticks: uneven,
    encode: [...h264, ...bFrames],
    sound: aac,
  },
  mkvLate: {
    ...size,
    ending: 'mkv',
    frames: 240,
    rate: '600',
    ticks: 'N*10+1234',
    encode: [...h264, ...bFrames],
  },
  mpegTs: { ...size, ending: 'ts', frames: 240, rate: '25', encode: [...h264, ...bFrames], sound: aac },
  mpegTsCut: {
    ...size,
    ending: 'ts',
    frames: 240,
    rate: '25',
    cutHead: 50,
    encode: [...h264, '-bf', '3', '-b_strategy', '0', '-g', '50', '-keyint_min', '50', '-sc_threshold', '0'],
  },
  mtsInterlaced: {
    width: 640,
    height: 480,
    ending: 'mts',
    frames: 240,
    rate: '25',
    encode: [
      ...h264,
      '-flags',
      '+ilme+ildct',
      '-x264opts',
      'tff=1',
      '-bf',
      '2',
      '-g',
      '50',
      '-mpegts_m2ts_mode',
      '1',
    ],
    sound: ['-c:a', 'ac3', '-b:a', '96k'],
  },
  mpeg2Interlaced: {
    width: 640,
    height: 480,
    ending: 'mts',
    frames: 240,
    rate: '30000/1001',
    encode: [
      ...['-c:v', 'mpeg2video', '-q:v', '3', '-flags', '+ilme+ildct', '-top', '1', '-bf', '2', '-g', '15'],
      ...['-f', 'mpegts'],
    ],
    sound: ['-c:a', 'mp2', '-b:a', '96k'],
  },
  proRes: {
    ...size,
    ending: 'mov',
    frames: 200,
    rate: '30000/1001',
    encode: ['-c:v', 'prores_ks', '-profile:v', '1', '-pix_fmt', 'yuv422p10le'],
    sound: ['-c:a', 'pcm_s16le'],
  },
  aviMotionJpeg: {
    ...size,
    ending: 'avi',
    frames: 200,
    rate: '30',
    encode: ['-c:v', 'mjpeg', '-q:v', '4', '-pix_fmt', 'yuvj420p'],
    sound: ['-c:a', 'pcm_s16le'],
  },
  aviMpeg4: {
    ...size,
    ending: 'avi',
    frames: 240,
    rate: '25',
    encode: ['-c:v', 'mpeg4', '-q:v', '4', '-bf', '2', '-g', '60'],
  },
  movOdd: {
    width: 321,
    height: 241,
    ending: 'mov',
    frames: 200,
    rate: '30',
    encode: ['-c:v', 'mjpeg', '-q:v', '4', '-pix_fmt', 'yuvj420p'],
  },
  widePixels: {
    width: 320,
    height: 240,
    ending: 'mp4',
    frames: 200,
    rate: '25',
    encode: [...h264, ...bFrames, '-vf', 'setsar=4/3'],
  },
  oneFrame: { ...size, ending: 'mp4', frames: 1, rate: '30', encode: h264 },
} as const satisfies Record<string, ClipRecipe>;

export type ClipKind = keyof typeof clipRecipes;
export const clipKinds = Object.keys(clipRecipes) as readonly ClipKind[];
