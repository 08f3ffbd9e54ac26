import { open } from 'node:fs/promises';
import { boxAt, edits, videoTrack, type Box } from './isoBoxes.ts';
import { movieBox } from './movieBox.ts';

/**
 * Old builds of ffmpeg give the last picture of a variable-rate track no duration, and then write an edit list that
 * ends where that picture begins: it is in the file and never shown. Gives it the duration of the picture before it
 * (a 25th of a second for a single picture) and lengthens track, edit list and movie by as much, in place.
 * Only for files that ffmpeg just wrote: anything unexpected is left as it is, for the check of frame times to find.
 */
export async function giveLastPictureItsDuration(path: string): Promise<void> {
  const file = await open(path, 'r+');
  try {
    const movie = await movieBox(file);
    if (movie && lengthen(movie.bytes, movie.moov)) {
      await file.write(movie.bytes, 0, movie.bytes.length, movie.at);
    }
  } finally {
    await file.close();
  }
}

/** Returns whether anything was changed. */
export function lengthen(bytes: Buffer, moov: Box): boolean {
  const trak = videoTrack(bytes, moov);
  const movieHead = boxAt(bytes, moov, 'mvhd');
  if (!trak || !movieHead) return false;
  const trackHead = boxAt(bytes, trak, 'tkhd');
  const mediaHead = boxAt(bytes, trak, 'mdia', 'mdhd');
  const stts = boxAt(bytes, trak, 'mdia', 'minf', 'stbl', 'stts');
  if (!trackHead || !mediaHead || !stts) return false;

  // Time to sample (8.6.1.2): runs of (count, duration).
  const runs = bytes.readUInt32BE(stts.body + 4);
  const last = stts.body + 8 + (runs - 1) * 8;
  if (runs < 1 || last + 8 > stts.end) return false;
  if (bytes.readUInt32BE(last) !== 1 || bytes.readUInt32BE(last + 4) !== 0) return false;

  const media = timed(bytes, mediaHead, 4);
  const movie = timed(bytes, movieHead, 4);
  if (media.scale === 0) return false;
  const before = runs > 1 ? bytes.readUInt32BE(last - 4) : Math.max(1, Math.round(media.scale / 25));
  bytes.writeUInt32BE(before, last + 4);
  media.setDuration(media.duration + before);

  const more = Math.ceil((before * movie.scale) / media.scale);
  const track = timed(bytes, trackHead, 8);
  track.setDuration(track.duration + more);
  movie.setDuration(Math.max(movie.duration, track.duration + more));
  lengthenLastEdit(bytes, trak, more);
  return true;
}

/**
 * Scale and duration of a header box, which stand after two dates. A track header has no scale of its own: the track's
 * number stands in its place, and a reserved word before the duration (`gap` 8 bytes instead of 4).
 */
function timed(
  bytes: Buffer,
  box: Box,
  gap: 4 | 8,
): { scale: number; duration: number; setDuration(value: number): void } {
  const long = bytes.readUInt8(box.body) === 1;
  const scaleAt = box.body + 4 + (long ? 16 : 8);
  const durationAt = scaleAt + gap;
  return {
    scale: bytes.readUInt32BE(scaleAt),
    duration: long ? Number(bytes.readBigUInt64BE(durationAt)) : bytes.readUInt32BE(durationAt),
    setDuration(value) {
      if (long) bytes.writeBigUInt64BE(BigInt(value), durationAt);
      else bytes.writeUInt32BE(value, durationAt);
    },
  };
}

function lengthenLastEdit(bytes: Buffer, trak: Box, more: number): void {
  const elst = boxAt(bytes, trak, 'edts', 'elst');
  const list = edits(bytes, trak);
  const lastEdit = list.at(-1);
  if (!elst || !lastEdit || lastEdit.mediaTime < 0) return;
  const long = bytes.readUInt8(elst.body) === 1;
  const at = elst.body + 8 + (list.length - 1) * (long ? 20 : 12);
  if (long) bytes.writeBigUInt64BE(BigInt(lastEdit.duration + more), at);
  else bytes.writeUInt32BE(lastEdit.duration + more, at);
}
