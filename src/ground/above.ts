import { project, type GroundCamera } from './camera.ts';
import type { PlanePoint } from './homography.ts';
import type { Point3 } from './pinhole.ts';

/**
 * The pixel of a point above the ground: that of the spot of ground which it hides from the lens, so that what bends
 * the picture of the ground bends this too. Pinhole geometry.
 * @param lens where the camera stands (pinhole.ts)
 * @returns null where it is as high as the lens or higher, or not before the camera
 */
export function projectAbove(camera: GroundCamera, lens: Point3, { x, y, z }: Point3): PlanePoint | null {
  if (!(z < lens.z)) return null;
  const by = z / (lens.z - z);
  return project(camera, { x: x + by * (x - lens.x), y: y + by * (y - lens.y) });
}
