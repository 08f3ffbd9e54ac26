import type { PictureSize } from '../../course/pictureLay.ts';

/** Where the picture of a run lies in a clip, pixels. */
export interface Box {
  readonly x: number;
  readonly width: number;
  readonly height: number;
}

export interface Layout {
  readonly size: PictureSize;
  readonly boxes: readonly Box[];
}

/** Longest side of a clip: what phones play and send. Pixels. */
const longest = 1920;
/** Most height that runs side by side are given, pixels. */
const highest = 1080;

/** Pictures keep their shape; the pixel format of phones asks for even sides. */
const even = (side: number): number => Math.max(2, 2 * Math.round(side / 2));

/** The size of a clip: the picture's own up to a limit, or two of one height side by side. */
export function layoutOf(pictures: readonly PictureSize[]): Layout {
  const [only] = pictures;
  if (only && pictures.length === 1) {
    const by = Math.min(1, longest / Math.max(only.width, only.height));
    const size = { width: even(only.width * by), height: even(only.height * by) };
    return { size, boxes: [{ x: 0, ...size }] };
  }
  const broad = pictures.reduce((sum, p) => sum + p.width / p.height, 0);
  const height = even(Math.min(highest, longest / broad, Math.max(...pictures.map((p) => p.height))));
  let x = 0;
  const boxes = pictures.map((p): Box => {
    const box = { x, width: even((height * p.width) / p.height), height };
    x += box.width;
    return box;
  });
  return { size: { width: x, height }, boxes };
}
