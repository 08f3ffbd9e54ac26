import { createCanvas, loadImage } from '@napi-rs/canvas';
import { readPaintedNumber } from '../../../scripts/clips/painted.ts';

/** Size of a JPEG and the number painted in it, by another decoder than ffmpeg's. */
export async function readStill(
  bytes: Uint8Array,
): Promise<{ number: number | null; width: number; height: number }> {
  const { width, height } = await loadImage(bytes);
  const image = await loadImage(bytes);
  const context = createCanvas(width, height).getContext('2d');
  context.drawImage(image, 0, 0);
  return {
    number: readPaintedNumber(context.getImageData(0, 0, width, height).data, width, height),
    width,
    height,
  };
}

/** Types of the marker segments of a JPEG, up to the picture's data (ITU-T T.81, table B.1). */
export function markers(bytes: Buffer): number[] {
  const list: number[] = [];
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1] ?? 0;
    list.push(marker);
    if (marker === 0xda) break;
    at += 2 + bytes.readUInt16BE(at + 2);
  }
  return list;
}
