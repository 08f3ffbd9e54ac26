import type { FrameTable } from '../../time/frameTable.ts';
import type { ClipProbe } from '../clipProbe.ts';
import { deinterlacedFirst, secondsOf, timeOrPlace, untilFrame } from '../picking.ts';
import { risingOnly, uprightFilters } from '../upright.ts';
import { beginExpression, keepExpression, type Picked } from './picked.ts';

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The frames of one clip that are shown, and the place in the picture that is theirs. */
export interface Lane {
  readonly facts: ClipProbe;
  readonly table: FrameTable;
  /** Frames from the first to the last of each part are read: those shown are among them. */
  readonly parts: readonly { readonly from: number; readonly to: number }[];
  /** The frames shown, in their order, and the picture with which each begins, from 0. */
  readonly shots: readonly { readonly frame: number; readonly at: number }[];
  readonly size: Size;
}

/** Sound that is heard: of a clip from a frame on, or silence; seconds. */
export type SoundPart = { readonly frame: number; readonly seconds: number } | { readonly silence: number };

/** What the pictures and the sound of a clip are made of. */
export interface Mix {
  /** One, or two side by side. */
  readonly lanes: readonly Lane[];
  /** Pictures a second. */
  readonly rate: { readonly num: number; readonly den: number };
  /** Pictures in all. */
  readonly ticks: number;
  readonly size: Size;
  /** When each picture that is laid over begins; none where nothing is. */
  readonly layers: readonly number[];
  /** Sound of the first lane. */
  readonly sound: readonly SoundPart[];
}

/**
 * The filters that make of the inputs (the lanes, then the pictures that are laid over) the picture [v] and, where
 * there is any, the sound [a]; [t0], [t1] are the frames of each lane, small, for their times. Nothing in it was
 * written by people.
 */
export function graph(mix: Mix): string {
  const { lanes, layers, size, rate } = mix;
  const lines = lanes.flatMap((lane, i) => [
    `[${i}:${lane.facts.picture.stream}]${range(lane)},split[t${i}a][p${i}a]`,
    // From 0, so that no lane waits for the other; small, because frames that wait are held.
    `[t${i}a]scale=16:16:flags=neighbor,setpts=PTS-STARTPTS[t${i}]`,
    `[p${i}a]${picture(lane, mix)}[p${i}]`,
  ]);
  let now = 'p0';
  if (lanes.length > 1) {
    lines.push(`${lanes.map((_, i) => `[p${i}]`).join('')}hstack=inputs=${lanes.length}[s]`);
    now = 's';
  }
  if (layers.length > 0) {
    const from = layers.map((at, place) => ({ place, at }));
    lines.push(
      `[${lanes.length}:v]${stamped(from, mix)},scale=out_color_matrix=${matrixOf(size)},format=yuva420p[o]`,
      `[${now}][o]overlay=eof_action=repeat[l]`,
    );
    now = 'l';
  }
  lines.push(`[${now}]fps=${rate.num}/${rate.den},setsar=1,format=yuv420p[v]`);
  return [...lines, ...sound(mix)].join(';\n');
}

/** All frames of a lane's parts, picked by their times; nothing is read beyond the last. */
function range({ facts, table, parts }: Lane): string {
  const picked = parts.map(({ from, to }) => timeOrPlace(facts, table, from, to)).join('+');
  const end = untilFrame(facts, table, parts.at(-1)?.to ?? 0);
  return deinterlacedFirst(facts, [risingOnly, end, `select='${picked}'`]).join(',');
}

/** Places of frames among all that are read of a lane, from 0. */
function placesIn(parts: Lane['parts']): (frame: number) => number {
  return (frame) =>
    parts.reduce((before, { from, to }) => (frame > to ? before + to - from + 1 : before), 0) +
    frame -
    (parts.find(({ to }) => frame <= to)?.from ?? frame);
}

/** Of these those that are shown, upright, in the size of their place, on the clock of the clip that is made. */
function picture({ facts, parts, shots, size }: Lane, mix: Mix): string {
  const placeOf = placesIn(parts);
  const picked = shots.map(({ frame, at }) => ({ place: placeOf(frame), at }));
  return [
    `select='${keepExpression(picked)}'`,
    ...uprightFilters({ ...facts.picture, interlaced: false }, size),
    'setsar=1,format=yuv420p',
    stamped(picked, mix),
  ].join(',');
}

/** Frames with the times at which they begin; the last one once more where all ends, so that it is shown that long. */
function stamped(picked: readonly Picked[], { rate, ticks }: Mix): string {
  return [
    'tpad=stop=1:stop_mode=clone',
    `settb=${rate.den}/${rate.num}`,
    `setpts='${beginExpression(picked, ticks)}'`,
  ].join(',');
}

/** Players take large pictures for BT.709 (common practice); smaller ones for BT.601. */
const matrixOf = ({ height }: Size): string => (height >= 720 ? 'bt709' : 'bt601');

const soundRate = 48_000;

function sound({ lanes, sound }: Mix): string[] {
  const [lane] = lanes;
  const stream = lane?.facts.sound?.stream;
  const heard = sound.filter((part) => 'frame' in part).length;
  if (!lane || stream === undefined || heard === 0) return [];
  const same = `aresample=${soundRate}:async=1,aformat=sample_fmts=fltp:channel_layouts=stereo`;
  const copies = Array.from({ length: heard }, (_, i) => `[h${i}]`).join('');
  const lines = [`[0:${stream}]${same},asplit=${heard}${copies}`];
  let next = 0;
  sound.forEach((part, i) => {
    if ('silence' in part) {
      lines.push(`anullsrc=r=${soundRate}:cl=stereo,atrim=end_sample=${samples(part.silence)}[a${i}]`);
      return;
    }
    const from = secondsOf(lane.table, part.frame);
    const cut = `atrim=${from.toFixed(6)}:${(from + part.seconds).toFixed(6)},asetpts=PTS-STARTPTS`;
    // Where the sound of the clip ends before its picture, silence goes on.
    lines.push(`[h${next++}]${cut},apad=whole_len=${samples(part.seconds)}[a${i}]`);
  });
  return [...lines, `${sound.map((_, i) => `[a${i}]`).join('')}concat=n=${sound.length}:v=0:a=1[a]`];
}

const samples = (seconds: number): number => Math.max(1, Math.round(seconds * soundRate));

/** Options that make ffmpeg print the times of the frames of every lane. No number of frames: it would end all lanes. */
export function tellingTimes(lanes: readonly Lane[]): string[] {
  return [
    ...lanes.flatMap((_, i) => ['-map', `[t${i}]`]),
    // By itself ffmpeg would count in frames where there is more than one input.
    ...lanes.flatMap(({ table: { timeBase } }, i) => [
      `-enc_time_base:v:${i}`,
      `${timeBase.num}/${timeBase.den}`,
    ]),
    ...['-c:v', 'wrapped_avframe', '-vsync', 'passthrough'],
    ...['-max_muxing_queue_size', '9999', '-f', 'framecrc', 'pipe:1'],
  ];
}

/** What `tellingTimes` made ffmpeg print of a lane: ticks of its clip since its first frame, one entry a frame. */
export function timesTold(printed: string, lane: number): number[] {
  return printed.split('\n').flatMap((line) => {
    const [stream, , pts] = line.split(',');
    return stream === String(lane) && pts !== undefined ? [Number(pts)] : [];
  });
}
