import type { Rotation } from './frameWindow.ts';

/** The parts of a 2D context that painting needs; canvases of windows and of workers both have them. */
export type Surface = Pick<
  CanvasRenderingContext2D,
  'save' | 'restore' | 'translate' | 'rotate' | 'drawImage' | 'setTransform'
>;

/**
 * The part of a decoded picture that is the clip's: working copies have one more column or row where a side of the
 * clip is odd, since their sides are even.
 */
function partOf(picture: VideoFrame | HTMLVideoElement, width: number, height: number): [number, number] {
  const w = 'displayWidth' in picture ? picture.displayWidth : picture.videoWidth;
  const h = 'displayHeight' in picture ? picture.displayHeight : picture.videoHeight;
  return [w === width + 1 ? width : w, h === height + 1 ? height : h];
}

/**
 * Paints a stored picture upright into `width` by `height` pixels of a surface.
 * @param rotation quarter turns clockwise
 * @param whole size of the clip's upright picture, where it is painted at another size
 */
export function paintUpright(
  surface: Surface,
  picture: VideoFrame | HTMLVideoElement,
  width: number,
  height: number,
  rotation: Rotation,
  whole: { readonly width: number; readonly height: number } = { width, height },
): void {
  const turned = rotation === 90 || rotation === 270;
  const w = turned ? height : width;
  const h = turned ? width : height;
  const part = turned
    ? partOf(picture, whole.height, whole.width)
    : partOf(picture, whole.width, whole.height);
  surface.setTransform(1, 0, 0, 1, 0, 0);
  if (rotation === 0) {
    surface.drawImage(picture, 0, 0, ...part, 0, 0, w, h);
    return;
  }
  surface.save();
  surface.translate(width / 2, height / 2);
  surface.rotate((rotation * Math.PI) / 180);
  surface.drawImage(picture, 0, 0, ...part, -w / 2, -h / 2, w, h);
  surface.restore();
}
