/** Reads bytes of a file; fewer come back at its end. */
export type ReadBytes = (from: number, length: number) => Promise<Uint8Array>;

/** Movie boxes larger than this are not ones that a camera wrote. */
const largestMovie = 256 * 1024 * 1024;
/** Boxes looked at before giving up; a fragmented film has a few thousand. */
const mostBoxes = 100_000;

interface Box {
  readonly type: string;
  readonly from: number;
  readonly to: number;
}

/**
 * Pieces of media that the edit list of a video track plays one after the other (ISO/IEC 14496-12, 8.6.6): 1 where
 * there is no edit list. The demuxer knows one piece only: with more, its packet times are not the clip's.
 * @returns null where the file cannot be read as far as that
 */
export async function editPieces(read: ReadBytes): Promise<number | null> {
  let at = 0;
  for (let boxes = 0; boxes < mostBoxes; boxes++) {
    const head = viewOf(await read(at, 16));
    const box = boxAt(head, 0, at);
    if (!box) return null;
    if (box.type === 'moov') {
      const size = box.to - box.from;
      if (size > largestMovie) return null;
      const movie = viewOf(await read(box.from, size));
      return movie.byteLength < size ? null : mostPieces(movie);
    }
    if (box.to === Infinity) return null;
    at = box.to;
  }
  return null;
}

function mostPieces(movie: DataView): number {
  const tracks = inside(movie, 0, movie.byteLength).filter((b) => b.type === 'trak');
  const counts = tracks.map((track) => {
    const parts = inside(movie, track.from, track.to);
    const handler = parts
      .filter((b) => b.type === 'mdia')
      .flatMap((b) => inside(movie, b.from, b.to))
      .find((b) => b.type === 'hdlr');
    if (!handler || typeAt(movie, handler.from + 8) !== 'vide') return 1;
    const list = parts
      .filter((b) => b.type === 'edts')
      .flatMap((b) => inside(movie, b.from, b.to))
      .find((b) => b.type === 'elst');
    return list ? piecesIn(movie, list) : 1;
  });
  return Math.max(1, ...counts);
}

/** Entries of an edit list that play media; an entry with media time -1 is a pause (8.6.6.3). */
function piecesIn(movie: DataView, list: Box): number {
  if (list.to - list.from < 8) return 1;
  const long = movie.getUint8(list.from) === 1;
  const each = long ? 20 : 12;
  const stated = movie.getUint32(list.from + 4);
  const count = Math.min(stated, Math.floor((list.to - list.from - 8) / each));
  let pieces = 0;
  for (let i = 0; i < count; i++) {
    const entry = list.from + 8 + i * each;
    if ((long ? movie.getInt32(entry + 8) : movie.getInt32(entry + 4)) >= 0) pieces++;
  }
  return pieces;
}

function inside(movie: DataView, from: number, to: number): Box[] {
  const list: Box[] = [];
  let at = from;
  while (at + 8 <= to) {
    const box = boxAt(movie, at, at);
    if (!box || box.to > to) break;
    list.push(box);
    at = box.to;
  }
  return list;
}

/** The box whose head stands at `head` in the view and at `start` in the file (4.2); null where it is cut or absurd. */
function boxAt(view: DataView, head: number, start: number): Box | null {
  if (view.byteLength - head < 8) return null;
  const type = typeAt(view, head + 4);
  const short = view.getUint32(head);
  if (short === 0) return { type, from: start + 8, to: Infinity };
  if (short !== 1) return short < 8 ? null : { type, from: start + 8, to: start + short };
  if (view.byteLength - head < 16) return null;
  const size = Number(view.getBigUint64(head + 8));
  return size < 16 || !Number.isSafeInteger(start + size)
    ? null
    : { type, from: start + 16, to: start + size };
}

function typeAt(view: DataView, at: number): string {
  if (at + 4 > view.byteLength) return '';
  return String.fromCharCode(...[0, 1, 2, 3].map((i) => view.getUint8(at + i)));
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
