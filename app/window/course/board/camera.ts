import type { Course } from '../../../../src/course/course.ts';
import { usualRing } from '../../../../src/course/drawing/pieces.ts';
import { extentOf, footprint, type Extent } from '../../../../src/course/footprint.ts';
import type { GroundPoint } from '../../../../src/course/points.ts';

/** A size on the screen, CSS pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** What part of the ground is seen: the point in the middle of the board and how large a metre is there. */
export interface Camera extends GroundPoint {
  /** CSS pixels of a metre. */
  readonly scale: number;
}

const least = 2;
const most = 400;
const within = (v: number, a: number, b: number): number => Math.min(b, Math.max(a, v));

/** The ground under a point of the board. */
export function toGround(camera: Camera, size: Size, x: number, y: number): GroundPoint {
  return {
    x: camera.x + (x - size.width / 2) / camera.scale,
    y: camera.y - (y - size.height / 2) / camera.scale,
  };
}

/** The point of the board over a place on the ground. */
export function toBoard(
  camera: Camera,
  size: Size,
  p: GroundPoint,
): { readonly x: number; readonly y: number } {
  return {
    x: size.width / 2 + (p.x - camera.x) * camera.scale,
    y: size.height / 2 - (p.y - camera.y) * camera.scale,
  };
}

/** All that there is of a course, and its ring, on the ground. */
export function extentOfCourse(course: Course): Extent {
  const { width, length } = course.ring ?? usualRing;
  const corners = [
    { x: 0, y: 0 },
    { x: width, y: length },
  ];
  return extentOf([
    ...corners,
    ...course.obstacles.flatMap((o) => (o.stand ? footprint(o, o.stand).flat() : [])),
  ]);
}

/** The camera that shows an extent whole with a little grass around. */
export function fitted(extent: Extent, size: Size): Camera {
  const room = 28;
  const width = Math.max(1, extent.x1 - extent.x0);
  const height = Math.max(1, extent.y1 - extent.y0);
  const scale = Math.min((size.width - 2 * room) / width, (size.height - 2 * room) / height);
  return {
    x: (extent.x0 + extent.x1) / 2,
    y: (extent.y0 + extent.y1) / 2,
    scale: within(scale, least, most),
  };
}

/** Nearer or further, with the ground under one point of the board staying where it is. */
export function zoomed(
  camera: Camera,
  size: Size,
  by: number,
  x = size.width / 2,
  y = size.height / 2,
): Camera {
  const scale = within(camera.scale * by, least, most);
  const held = toGround(camera, size, x, y);
  return kept({
    scale,
    x: held.x - (x - size.width / 2) / scale,
    y: held.y + (y - size.height / 2) / scale,
  });
}

/** The camera moved by pixels of the board, as a sheet is pushed. */
export function pushed(camera: Camera, dx: number, dy: number): Camera {
  return kept({ ...camera, x: camera.x - dx / camera.scale, y: camera.y + dy / camera.scale });
}

/** Never further away than the ground goes. */
const kept = (camera: Camera): Camera => ({
  ...camera,
  x: within(camera.x, -1000, 1000),
  y: within(camera.y, -1000, 1000),
});

/** True of two sizes so alike that what is seen should stay as large as it is: a notice came up below the board. */
export const nearly = (a: Size, b: Size): boolean =>
  Math.abs(a.width - b.width) < 0.15 * a.width && Math.abs(a.height - b.height) < 0.25 * a.height;

/** The camera of another size under which all stays where it was from the upper left corner. */
export const anchored = (camera: Camera, before: Size, after: Size): Camera => ({
  ...camera,
  x: camera.x + (after.width - before.width) / 2 / camera.scale,
  y: camera.y - (after.height - before.height) / 2 / camera.scale,
});
