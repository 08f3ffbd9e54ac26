import { open, type FileHandle } from 'node:fs/promises';
import { boxAt, boxHead, videoTrack, type Box } from './isoBoxes.ts';

/** The movie box of an ISO file: its bytes, the box within them, and where it stands in the file. */
export interface MovieBox {
  readonly bytes: Buffer;
  readonly moov: Box;
  readonly at: number;
}

/** The movie box of a file that ffmpeg just wrote; null where there is none. */
export async function movieBox(file: FileHandle): Promise<MovieBox | null> {
  const { size: length } = await file.stat();
  const head = Buffer.alloc(16);
  let at = 0;
  while (at + 8 <= length) {
    await file.read(head, 0, 16, at);
    const found = boxHead(head, 0);
    if (!found || found.size < found.head || at + found.size > length) return null;
    if (found.type === 'moov') {
      const bytes = Buffer.alloc(found.size);
      await file.read(bytes, 0, found.size, at);
      return { bytes, moov: { type: 'moov', start: 0, body: found.head, end: found.size }, at };
    }
    at += found.size;
  }
  return null;
}

/** Pictures that a movie file says it has (sample sizes of its first track of pictures, 8.7.3); 0 where it is not whole. */
export async function picturesIn(path: string): Promise<number> {
  const file = await open(path, 'r');
  try {
    const movie = await movieBox(file);
    const trak = movie && videoTrack(movie.bytes, movie.moov);
    const sizes = trak && boxAt(movie.bytes, trak, 'mdia', 'minf', 'stbl', 'stsz');
    return sizes && sizes.body + 12 <= sizes.end ? movie.bytes.readUInt32BE(sizes.body + 8) : 0;
  } finally {
    await file.close();
  }
}
