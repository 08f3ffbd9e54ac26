import { put, type Frame, type Numbers, type Sighting } from './model.ts';

/** Why no camera above the ground can show points so: some lie behind it, or left and right are exchanged. */
export type Impossible = 'behind' | 'mirrored';

/**
 * Whether a camera above the ground can see the points by these numbers. Seen from above, the ground's x and y turn the
 * other way than the picture's, whose y runs down: the matrix has a negative determinant. From below it is positive.
 */
export function impossible(
  frame: Frame,
  numbers: Numbers,
  sightings: readonly Sighting[],
): Impossible | null {
  if (sightings.some((s) => !(put(frame, numbers, s.ground).depth > 0))) return 'behind';
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = numbers;
  return a * (e - f * h) - b * (d - f * g) + c * (d * h - e * g) < 0 ? null : 'mirrored';
}
