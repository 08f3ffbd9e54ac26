/** Just enough of ISO/IEC 14496-12 to turn a track and to rewrite its edit list in a file made by our own encoder. */
interface Box {
  readonly type: string;
  readonly start: number;
  readonly body: number;
  readonly end: number;
}

function boxesIn(file: Buffer, from: number, to: number): Box[] {
  const list: Box[] = [];
  let at = from;
  while (at + 8 <= to) {
    let size = file.readUInt32BE(at);
    const type = file.toString('latin1', at + 4, at + 8);
    let body = at + 8;
    if (size === 1) {
      size = Number(file.readBigUInt64BE(at + 8));
      body = at + 16;
    }
    if (size === 0) size = to - at;
    if (size < 8 || at + size > to) throw new Error(`Box ${type} at ${at} runs past its parent`);
    list.push({ type, start: at, body, end: at + size });
    at += size;
  }
  return list;
}

function find(file: Buffer, parent: Box, type: string): Box {
  const box = boxesIn(file, parent.body, parent.end).find((b) => b.type === type);
  if (!box) throw new Error(`No ${type} box in ${parent.type}`);
  return box;
}

function whole(file: Buffer): Box {
  return { type: 'file', start: 0, body: 0, end: file.length };
}

function videoTrack(file: Buffer): { moov: Box; trak: Box } {
  const moov = find(file, whole(file), 'moov');
  for (const trak of boxesIn(file, moov.body, moov.end).filter((b) => b.type === 'trak')) {
    const handler = find(file, find(file, trak, 'mdia'), 'hdlr');
    if (file.toString('latin1', handler.body + 8, handler.body + 12) === 'vide') return { moov, trak };
  }
  throw new Error('No video track');
}

/** Matrices of the track header for a clockwise turn on display (ISO/IEC 14496-12, 8.3.2; entries 16.16 and 2.30). */
const matrices: Record<0 | 90 | 180 | 270, readonly number[]> = {
  0: [65536, 0, 0, 0, 65536, 0, 0, 0, 1073741824],
  90: [0, 65536, 0, -65536, 0, 0, 0, 0, 1073741824],
  180: [-65536, 0, 0, 0, -65536, 0, 0, 0, 1073741824],
  270: [0, -65536, 0, 65536, 0, 0, 0, 0, 1073741824],
};

/** Writes the turn into the header of the video track, in place. */
export function turnTrack(file: Buffer, clockwise: 0 | 90 | 180 | 270): Buffer {
  const { trak } = videoTrack(file);
  const tkhd = find(file, trak, 'tkhd');
  const version = file.readUInt8(tkhd.body);
  const matrix = tkhd.body + (version === 1 ? 52 : 40);
  matrices[clockwise].forEach((value, i) => file.writeInt32BE(value, matrix + i * 4));
  return file;
}

/** One line of an edit list; `mediaTime` -1 is an empty edit (8.6.6). Times: movie and media time scale. */
export interface Edit {
  readonly segmentDuration: number;
  readonly mediaTime: number;
}

/** Time scales of the movie and of its video track, and the first edit that is not empty, as the file has them. */
export function timing(file: Buffer): { movie: number; media: number; firstMediaTime: number } {
  const { moov, trak } = videoTrack(file);
  const scale = (box: Box): number => {
    const long = file.readUInt8(box.body) === 1;
    return file.readUInt32BE(box.body + (long ? 20 : 12));
  };
  const movie = scale(find(file, moov, 'mvhd'));
  const media = scale(find(file, find(file, trak, 'mdia'), 'mdhd'));
  const elst = find(file, find(file, trak, 'edts'), 'elst');
  const count = file.readUInt32BE(elst.body + 4);
  for (let i = 0; i < count; i++) {
    const mediaTime = file.readInt32BE(elst.body + 8 + i * 12 + 4);
    if (mediaTime >= 0) return { movie, media, firstMediaTime: mediaTime };
  }
  throw new Error('The edit list has no piece');
}

/** Replaces the edit list of the video track. The movie box must stand after the media data, so that nothing moves. */
export function withEdits(file: Buffer, edits: readonly Edit[]): Buffer {
  const { moov, trak } = videoTrack(file);
  if (boxesIn(file, 0, file.length).some((b) => b.type === 'mdat' && b.start > moov.start)) {
    throw new Error('The movie box stands before the media data');
  }
  const edts = find(file, trak, 'edts');
  const made = Buffer.alloc(8 + 8 + 8 + edits.length * 12);
  made.writeUInt32BE(made.length, 0);
  made.write('edts', 4, 'latin1');
  made.writeUInt32BE(made.length - 8, 8);
  made.write('elst', 12, 'latin1');
  made.writeUInt32BE(edits.length, 20);
  edits.forEach((edit, i) => {
    made.writeUInt32BE(edit.segmentDuration, 24 + i * 12);
    made.writeInt32BE(edit.mediaTime, 28 + i * 12);
    made.writeUInt32BE(0x10000, 32 + i * 12);
  });
  const grown = made.length - (edts.end - edts.start);
  const out = Buffer.concat([file.subarray(0, edts.start), made, file.subarray(edts.end)]);
  for (const box of [moov, trak]) out.writeUInt32BE(box.end - box.start + grown, box.start);
  return out;
}
