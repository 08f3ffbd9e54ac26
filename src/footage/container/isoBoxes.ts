/**
 * Boxes of ISO/IEC 14496-12 (mp4, mov, m4v) in memory: as much as the footage room must see and ffprobe does not tell,
 * and what it must set right in its own working copies.
 */
export interface Box {
  readonly type: string;
  /** Where the box starts, where its content starts, where it ends, in bytes. */
  readonly start: number;
  readonly body: number;
  readonly end: number;
}

/** Start of a box: its type, the length of its head and of the whole; `size` 0 means to the end of the file. */
export function boxHead(bytes: Buffer, at: number): { type: string; head: number; size: number } | null {
  if (at + 8 > bytes.length) return null;
  const size = bytes.readUInt32BE(at);
  const type = bytes.toString('latin1', at + 4, at + 8);
  if (size !== 1) return { type, head: 8, size };
  if (at + 16 > bytes.length) return null;
  return { type, head: 16, size: Number(bytes.readBigUInt64BE(at + 8)) };
}

/** Boxes between two places; stops at the first that does not fit, since damaged files are a normal case. */
export function boxesIn(bytes: Buffer, from: number, to: number): Box[] {
  const list: Box[] = [];
  let at = from;
  while (at < to) {
    const found = boxHead(bytes, at);
    if (!found) break;
    const end = found.size === 0 ? to : at + found.size;
    if (end > to || end < at + found.head) break;
    list.push({ type: found.type, start: at, body: at + found.head, end });
    at = end;
  }
  return list;
}

/** The box at the end of a path of types below `parent`, or undefined. */
export function boxAt(bytes: Buffer, parent: Box, ...types: string[]): Box | undefined {
  let here: Box | undefined = parent;
  for (const type of types) {
    if (!here) return undefined;
    here = boxesIn(bytes, here.body, here.end).find((b) => b.type === type);
  }
  return here;
}

/** The first track with pictures in a movie box. */
export function videoTrack(bytes: Buffer, moov: Box): Box | undefined {
  return boxesIn(bytes, moov.body, moov.end).find((trak) => {
    if (trak.type !== 'trak') return false;
    const handler = boxAt(bytes, trak, 'mdia', 'hdlr');
    return handler !== undefined && bytes.toString('latin1', handler.body + 8, handler.body + 12) === 'vide';
  });
}

/** One line of an edit list (8.6.6): movie time, media time (-1 is an empty edit) and rate as 16.16. */
export interface Edit {
  readonly duration: number;
  readonly mediaTime: number;
  readonly rate: number;
}

/** The edit list of a track; empty where there is none. */
export function edits(bytes: Buffer, trak: Box): Edit[] {
  const elst = boxAt(bytes, trak, 'edts', 'elst');
  if (!elst || elst.body + 8 > elst.end) return [];
  const long = bytes.readUInt8(elst.body) === 1;
  const step = long ? 20 : 12;
  const list: Edit[] = [];
  const first = elst.body + 8;
  const count = Math.min(bytes.readUInt32BE(elst.body + 4), Math.floor((elst.end - first) / step));
  for (let i = 0; i < count; i++) {
    const at = first + i * step;
    list.push(
      long
        ? {
            duration: Number(bytes.readBigUInt64BE(at)),
            mediaTime: Number(bytes.readBigInt64BE(at + 8)),
            rate: bytes.readInt32BE(at + 16),
          }
        : {
            duration: bytes.readUInt32BE(at),
            mediaTime: bytes.readInt32BE(at + 4),
            rate: bytes.readInt32BE(at + 8),
          },
    );
  }
  return list;
}
