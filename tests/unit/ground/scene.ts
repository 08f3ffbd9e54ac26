import type { PictureSize } from '../../../src/course/pictureLay.ts';
import type { PlanePoint } from '../../../src/ground/homography.ts';
import type { Sighting } from '../../../src/ground/model.ts';
import { randomStream } from '../../../scripts/simulator/base/random.ts';
import { groundSeen, seenAt, standing, type CameraAt } from '../../../scripts/simulator/camera/path.ts';

/** A ring of 20 m by 40 m as the tests measure it. */
export const ring = { width: 20, length: 40 };
export const ringCorners: readonly PlanePoint[] = [
  { x: 0, y: 0 },
  { x: ring.width, y: 0 },
  { x: ring.width, y: ring.length },
  { x: 0, y: ring.length },
];
export const picture: PictureSize = { width: 1920, height: 1080 };

/** A camera beside the ring, `back` metres behind the middle of its near short side, that looks along it. */
export function cameraAt(
  height: number,
  fieldDegrees: number,
  { back = 5, aside = 0, pan = 0, lens = { k1: 0, k2: 0 }, size = picture } = {},
): CameraAt {
  const focal = size.width / 2 / Math.tan((fieldDegrees * Math.PI) / 360);
  return standing(
    {
      at: { x: ring.width / 2 + aside, y: -back, z: height },
      pan,
      tilt: Math.atan2(height, back + 14),
      roll: 0.01,
      focal,
      width: size.width,
      height: size.height,
    },
    lens,
  );
}

/** Where the simulator sees a spot of the ground; null outside of the picture. */
export const truePixel = (camera: CameraAt, p: PlanePoint): PlanePoint | null => {
  const seen = seenAt(camera, { ...p, z: 0 }, 0);
  return seen && { x: seen.u, y: seen.v };
};

/** Which spot of the ground the simulator shows there. */
export const trueGround = (camera: CameraAt, pixel: PlanePoint): PlanePoint =>
  groundSeen(camera, 0, pixel.x, pixel.y);

/** So many spots of the ring that the camera sees, spread by chance. */
export function spotsIn(camera: CameraAt, count: number, seed: number): readonly PlanePoint[] {
  const random = randomStream(seed).branch('spots');
  const spots: PlanePoint[] = [];
  for (let i = 0; i < 10_000 && spots.length < count; i++) {
    const p = { x: random.between(0, ring.width), y: random.between(0, ring.length) };
    if (truePixel(camera, p)) spots.push(p);
  }
  return spots;
}

/** The spots as a coach clicks them, `noise` pixels off per axis. */
export function clicked(
  camera: CameraAt,
  spots: readonly PlanePoint[],
  noise: number,
  seed: number,
): Sighting[] {
  const random = randomStream(seed).branch('clicks');
  return spots.map((ground, i) => {
    const at = truePixel(camera, ground);
    if (!at) throw new Error('the camera does not see the spot');
    return {
      id: `p${i}`,
      ground,
      pixel: { x: at.x + noise * random.bell(), y: at.y + noise * random.bell() },
    };
  });
}
