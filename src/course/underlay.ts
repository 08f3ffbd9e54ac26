import { z } from 'zod';
import { GroundPoint } from './points.ts';

/** A point of a picture that may lie a little beyond its edge: a corner of the ring that the photo cut off. */
const NearPicture = z.strictObject({ x: z.number().min(-2).max(3), y: z.number().min(-2).max(3) });
export type NearPicture = z.infer<typeof NearPicture>;

/** A point of the map picture and where it lies on the ground. */
const KnownPoint = z.strictObject({ onPicture: NearPicture, onGround: GroundPoint });

/**
 * How the map picture lies under the drawing. Straightened first, where its four corners are given: they are what
 * stands upright and rectangular in truth (the ring, or the sheet of paper), from the corner at the lower left of the
 * straightened picture counter-clockwise, `shape` being width over height of that rectangle. Then laid on the ground by
 * two points whose places are known, without distortion. With the ring's corners the two points are two of them.
 */
export const Underlay = z
  .strictObject({
    corners: z.tuple([NearPicture, NearPicture, NearPicture, NearPicture]).optional(),
    shape: z.number().min(0.02).max(50).optional(),
    known: z.tuple([KnownPoint, KnownPoint]),
    /** How much of the picture shows: 0 nothing, 1 all. */
    strength: z.number().min(0).max(1).default(0.5),
  })
  .refine(
    ({ known: [a, b] }) => apart(a.onPicture, b.onPicture) > 1e-3 && apart(a.onGround, b.onGround) > 1e-2,
    'two known points that lie on each other say nothing of the scale',
  )
  .refine(
    ({ corners, shape }) => (corners === undefined) === (shape === undefined),
    'corners and the shape of their rectangle belong together',
  )
  .refine(
    ({ corners }) => corners === undefined || goesRound(corners),
    'the four corners must go round once, each turning the same way',
  );
export type Underlay = z.infer<typeof Underlay>;

interface Point {
  readonly x: number;
  readonly y: number;
}

const apart = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** True of a convex four-sided figure without three corners in a line. */
function goesRound(corners: readonly Point[]): boolean {
  const turns = corners.map((a, i) => {
    const b = corners[(i + 1) % corners.length] ?? a;
    const c = corners[(i + 2) % corners.length] ?? a;
    return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
  });
  return turns.every((turn) => turn > 1e-5) || turns.every((turn) => turn < -1e-5);
}
