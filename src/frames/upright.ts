import type { Rotation } from './frameWindow.ts';

/** The parts of a 2D context that painting needs; canvases of windows and of workers both have them. */
export type Surface = Pick<
  CanvasRenderingContext2D,
  'save' | 'restore' | 'translate' | 'rotate' | 'drawImage' | 'setTransform'
>;

/**
 * Paints a stored picture upright into `width` by `height` pixels of a surface.
 * @param rotation quarter turns clockwise
 */
export function paintUpright(
  surface: Surface,
  picture: CanvasImageSource,
  width: number,
  height: number,
  rotation: Rotation,
): void {
  const turned = rotation === 90 || rotation === 270;
  const w = turned ? height : width;
  const h = turned ? width : height;
  surface.setTransform(1, 0, 0, 1, 0, 0);
  if (rotation === 0) {
    surface.drawImage(picture, 0, 0, w, h);
    return;
  }
  surface.save();
  surface.translate(width / 2, height / 2);
  surface.rotate((rotation * Math.PI) / 180);
  surface.drawImage(picture, -w / 2, -h / 2, w, h);
  surface.restore();
}
