import type { FileHandle } from 'node:fs/promises';
import { boxHead, edits, videoTrack, type Box } from './isoBoxes.ts';
import { smallNumbersByKey } from './movieKeys.ts';

/** What the outermost layer of a file tells of itself. */
export interface Wholeness {
  /** Bytes that the file says it has beyond its end; 0 where it is whole or does not say. */
  readonly missing: number;
  /** ISO files: pieces of the video's edit list, empty edits not counted; else null. */
  readonly editPieces: number | null;
  /** ISO files: rates of those pieces that are not 1; a piece that stands still has 0. Else empty. */
  readonly editRates: readonly number[];
  /** ISO files: small whole numbers among the movie's metadata, by key. Else empty. */
  readonly keys: ReadonlyMap<string, number>;
  /** ISO files: whether the movie box is there; else null. */
  readonly movie: boolean | null;
}

const notIso = { editPieces: null, editRates: [], keys: new Map<string, number>(), movie: null };
const largestMovieBox = 256 * 1024 * 1024;

/** Reads the outermost layer of an ISO, Matroska or AVI file. Other containers do not state their own length. */
export async function wholeness(file: FileHandle, bytes: number): Promise<Wholeness> {
  const head = Buffer.alloc(64);
  const { bytesRead } = await file.read(head, 0, head.length, 0);
  const start = head.subarray(0, bytesRead);
  if (start.length >= 4 && start.readUInt32BE(0) === 0x1a45dfa3) {
    return { missing: matroskaMissing(start, bytes), ...notIso };
  }
  if (start.length >= 12 && start.toString('latin1', 0, 4) === 'RIFF') {
    // A recording that was never closed has 0 or all ones here.
    const said = start.readUInt32LE(4);
    const missing = said === 0xffffffff ? 0 : Math.max(0, said + 8 - bytes);
    return { missing, ...notIso };
  }
  if (start.length >= 8 && /^(?:ftyp|moov|mdat|free|skip|wide|pnot)$/.test(start.toString('latin1', 4, 8))) {
    return isoWholeness(file, bytes);
  }
  return { missing: 0, ...notIso };
}

async function isoWholeness(file: FileHandle, bytes: number): Promise<Wholeness> {
  const head = Buffer.alloc(16);
  let at = 0;
  let missing = 0;
  let editPieces: number | null = null;
  let editRates: number[] = [];
  let keys = new Map<string, number>();
  let movie = false;
  while (at + 8 <= bytes) {
    const { bytesRead } = await file.read(head, 0, 16, at);
    const found = boxHead(head.subarray(0, bytesRead), 0);
    if (!found || (found.size !== 0 && found.size < found.head)) break;
    const size = found.size === 0 ? bytes - at : found.size;
    if (at + size > bytes) {
      // Bytes after the last box that are no box at all are common and harmless.
      if (/^(?:mdat|moov|moof)$/.test(found.type)) missing = at + size - bytes;
      break;
    }
    if (found.type === 'moov' && size <= largestMovieBox) {
      movie = true;
      const content = Buffer.alloc(size);
      await file.read(content, 0, size, at);
      const moov: Box = { type: 'moov', start: 0, body: found.head, end: size };
      keys = smallNumbersByKey(content, moov);
      const trak = videoTrack(content, moov);
      if (trak) {
        const pieces = edits(content, trak).filter((edit) => edit.mediaTime >= 0);
        // A piece at another speed than 1 counts as one more: a plain player does not show it as meant.
        editRates = pieces.flatMap(({ rate }) => (rate === 0x10000 ? [] : [rate / 0x10000]));
        editPieces = pieces.length + editRates.length;
      }
    }
    at += size;
  }
  return { missing, editPieces, editRates, keys, movie };
}

/** Matroska (RFC 9559): the EBML header, then one Segment; a length of all ones is "not known". */
function matroskaMissing(start: Buffer, bytes: number): number {
  const header = elementSize(start, 4);
  if (!header || header.size === null) return 0;
  const segment = header.end + header.size;
  if (segment + 12 > start.length || start.readUInt32BE(segment) !== 0x18538067) return 0;
  const content = elementSize(start, segment + 4);
  if (!content || content.size === null) return 0;
  return Math.max(0, content.end + content.size - bytes);
}

/** A variable-length integer (RFC 8794, section 4): its value (null for "unknown") and where it ends. */
function elementSize(bytes: Buffer, at: number): { size: number | null; end: number } | null {
  const first = bytes[at];
  if (first === undefined || first === 0) return null;
  const length = Math.clz32(first) - 23;
  if (at + length > bytes.length) return null;
  let value = first & (0xff >> length);
  let unknown = value === 0xff >> length;
  for (let i = 1; i < length; i++) {
    const next = bytes[at + i] ?? 0;
    unknown &&= next === 0xff;
    value = value * 256 + next;
  }
  return { size: unknown ? null : value, end: at + length };
}
