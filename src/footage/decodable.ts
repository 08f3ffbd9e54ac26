import type { ClipProbe } from './clipProbe.ts';

/** Why a clip needs a working copy, as a key of the catalogue. */
export type CopyReason =
  'codec' | 'container' | 'interlaced' | 'bitDepth' | 'pixelFormat' | 'pixelShape' | 'editList';

/** Codecs that Chromium decodes, in its own and in its WebCodecs names alike, by ffmpeg's names. */
const codecs: ReadonlySet<string> = new Set(['h264', 'vp8', 'vp9', 'av1']);
/** Containers that the window's demuxer reads. */
const containers: ReadonlySet<string> = new Set(['mp4', 'mov', 'matroska', 'webm']);

/**
 * Whether the window can show a clip frame by frame as it is: null, or the first reason why not. Chromium gives no
 * error for some of these (HEVC and ProRes play as sound without a picture), so the file's facts decide. Ten bits play,
 * but slowly and not everywhere; a copy is better to work with.
 */
export function reasonForCopy(clip: ClipProbe): CopyReason | null {
  const { picture } = clip;
  if (!containers.has(clip.container)) return 'container';
  if (!codecs.has(picture.codec)) return 'codec';
  if (picture.interlaced) return 'interlaced';
  if ((picture.bitDepth ?? 8) > 8) return 'bitDepth';
  if (!/^yuvj?420p$/.test(picture.pixelFormat)) return 'pixelFormat';
  if (picture.pixelShape[0] !== picture.pixelShape[1]) return 'pixelShape';
  if ((clip.editPieces ?? 1) > 1) return 'editList';
  return null;
}

/** Why a clip that can be shown as it is steps slowly all the same, as a key of the catalogue. */
export type SlowReason = 'longGop' | 'largePicture';

/**
 * Key frames farther apart than this make a step back wait: a jump into the middle then decodes hundreds of frames
 * (measured for 1080p: 190 ms at 250, 27 ms at 15). Up to 250, what most encoders set, the original still serves.
 */
export const farthestKeys = 250;
/** From this length of the longer side on (4K) a picture is too large to be stepped through on an ordinary machine. */
export const largeSide = 3840;

/** Why a working copy would be easier to step through than this clip; null where the clip itself serves. */
export function reasonForEase(
  picture: { readonly width: number; readonly height: number },
  keyDistance: number,
): SlowReason | null {
  if (Math.max(picture.width, picture.height) >= largeSide) return 'largePicture';
  return keyDistance > farthestKeys ? 'longGop' : null;
}

/** The same as a pair, for those who ask "can it?". */
export function decodableInWindow(clip: ClipProbe): { decodable: boolean; why: CopyReason | null } {
  const why = reasonForCopy(clip);
  return { decodable: why === null, why };
}
