import path from 'node:path';
import { z } from 'zod';
import type { ColourFacts, Container, PictureFacts, SoundFacts } from './clipProbe.ts';

/** ffprobe's JSON, as far as it is used. Numbers often come as text, and anything may be missing. */
const loose = z.union([z.string(), z.number()]).optional().catch(undefined);
const ProbeOutput = z.object({
  streams: z
    .array(
      z.object({
        index: z.int().min(0),
        codec_type: z.string().optional(),
        codec_name: z.string().optional(),
        profile: loose,
        pix_fmt: z.string().optional(),
        width: z.number().optional(),
        height: z.number().optional(),
        sample_aspect_ratio: z.string().optional(),
        field_order: z.string().optional(),
        color_primaries: z.string().optional(),
        color_transfer: z.string().optional(),
        color_space: z.string().optional(),
        color_range: z.string().optional(),
        time_base: z.string().optional(),
        nb_frames: loose,
        duration: loose,
        channels: z.number().optional(),
        sample_rate: loose,
        disposition: z.object({ attached_pic: z.number().optional() }).optional().catch(undefined),
        tags: z.record(z.string(), z.string()).optional().catch(undefined),
        side_data_list: z
          .array(z.looseObject({ rotation: loose }))
          .optional()
          .catch(undefined),
      }),
    )
    .default([]),
  format: z
    .object({
      format_name: z.string().optional(),
      duration: loose,
      tags: z.record(z.string(), z.string()).optional().catch(undefined),
    })
    .default({}),
});
export type ProbeOutput = z.infer<typeof ProbeOutput>;
type Stream = ProbeOutput['streams'][number];

/** Checks ffprobe's answer. Throws where it is no such answer. */
export function probeOutput(json: string): ProbeOutput {
  return ProbeOutput.parse(JSON.parse(json));
}

/** The first stream of moving pictures: cover art is a picture too, but no film. */
export function pictureStream(output: ProbeOutput): Stream | undefined {
  return output.streams.find((s) => s.codec_type === 'video' && s.disposition?.attached_pic !== 1);
}

export function soundFacts(output: ProbeOutput): SoundFacts | null {
  for (const s of output.streams) {
    const channels = s.channels ?? 0;
    const sampleRate = count(s.sample_rate) ?? 0;
    // Phones add tracks that only their maker's programs can decode; ffprobe knows no codec or no channels for them.
    if (s.codec_type !== 'audio' || !s.codec_name || s.codec_name === 'unknown') continue;
    if (channels > 0 && sampleRate > 0) return { stream: s.index, codec: s.codec_name, channels, sampleRate };
  }
  return null;
}

/** Facts of the picture; `interlaced` where stream or any of its first frames says so. */
export function pictureFacts(s: Stream, interlacedFrames: boolean): PictureFacts {
  const coded = { width: s.width ?? 0, height: s.height ?? 0 };
  const pixelShape = ratio(s.sample_aspect_ratio);
  const rotation = clockwise(s);
  // Square pixels keep the height: lines are real, widths are stretched.
  const square = { width: Math.round((coded.width * pixelShape[0]) / pixelShape[1]), height: coded.height };
  const upright =
    rotation === 90 || rotation === 270 ? { width: square.height, height: square.width } : square;
  return {
    stream: s.index,
    codec: s.codec_name ?? 'unknown',
    profile: s.profile === undefined || s.profile === 'unknown' ? null : String(s.profile),
    pixelFormat: s.pix_fmt ?? 'unknown',
    bitDepth: bitDepth(s.pix_fmt),
    coded,
    pixelShape,
    ...upright,
    rotation,
    colour: colourFacts(s),
    interlaced: interlacedFrames || /^(?:tt|bb|tb|bt)$/.test(s.field_order ?? ''),
    timeBase: timeBaseOf(s.time_base),
    statedFrames: count(s.nb_frames) ?? null,
  };
}

/**
 * Lengths in seconds as stated by the picture's stream and by the file, in this order; those that are no number are
 * left out. They differ where a header is wrong, and a player believes either.
 */
export function statedSeconds(output: ProbeOutput, s: Stream): number[] {
  return [s.duration, output.format.duration].map((value) => Number(value ?? NaN)).filter(Number.isFinite);
}

export function containerOf(output: ProbeOutput, file: string): Container {
  const name = output.format.format_name ?? '';
  if (name.includes('matroska')) return path.extname(file).toLowerCase() === '.webm' ? 'webm' : 'matroska';
  if (name.includes('avi')) return 'avi';
  if (name.includes('mpegts')) return 'mpegts';
  return output.format.tags?.['major_brand']?.startsWith('qt') ? 'mov' : 'mp4';
}

/**
 * ffmpeg states a display matrix as a turn counter-clockwise: -90 is an upright phone, to be shown turned clockwise by
 * 90 (matrices of ISO/IEC 14496-12, 8.3.2). Its older tag `rotate` counts clockwise. Turns that are not by quarters
 * are not taken for one.
 */
function clockwise(s: Stream): 0 | 90 | 180 | 270 {
  const matrix = s.side_data_list?.map((d) => Number(d.rotation ?? NaN)).find(Number.isFinite);
  const degrees = matrix !== undefined ? -matrix : Number(s.tags?.['rotate'] ?? 0);
  if (!Number.isFinite(degrees)) return 0;
  const turned = ((degrees % 360) + 360) % 360;
  for (const quarter of [90, 180, 270] as const) if (Math.abs(turned - quarter) < 1) return quarter;
  return 0;
}

function ratio(text: string | undefined): readonly [number, number] {
  const [num = 0, den = 0] = (text ?? '').split(':').map(Number);
  // Beyond 1:10 no camera goes; such a value is damage.
  return num > 0 && den > 0 && num / den < 10 && den / num < 10 ? [num, den] : [1, 1];
}

function timeBaseOf(text: string | undefined): readonly [number, number] {
  const [num = 0, den = 0] = (text ?? '').split('/').map(Number);
  return [num, den];
}

function count(value: string | number | undefined): number | undefined {
  const n = Number(value ?? NaN);
  return Number.isSafeInteger(n) && n >= 0 ? n : undefined;
}

function bitDepth(pixelFormat: string | undefined): number | null {
  if (pixelFormat === undefined || pixelFormat === 'unknown') return null;
  const deep = /(?:p|gray|p0)(9|10|12|14|16)(?:le|be)$/.exec(pixelFormat)?.[1];
  return deep === undefined ? 8 : Number(deep);
}

function colourFacts(s: Stream): ColourFacts {
  const stated = (value: string | undefined): string | null =>
    value === undefined || value === 'unknown' || value === 'reserved' ? null : value;
  const full = s.color_range === 'pc' || s.pix_fmt?.startsWith('yuvj') === true;
  return {
    primaries: stated(s.color_primaries),
    transfer: stated(s.color_transfer),
    matrix: stated(s.color_space),
    range: full ? 'full' : s.color_range === 'tv' ? 'limited' : null,
  };
}
