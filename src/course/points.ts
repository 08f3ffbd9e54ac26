import { z } from 'zod';

const metre = z.number().min(-1000).max(1000);
const fraction = z.number().min(0).max(1);

/** A point on the ground: metres, x along the ring's width, y along its length, origin at a corner. */
export const GroundPoint = z.strictObject({ x: metre, y: metre });
export type GroundPoint = z.infer<typeof GroundPoint>;

/** A point on a picture, as fractions of its upright width and height; y runs down. */
export const PicturePoint = z.strictObject({ x: fraction, y: fraction });
export type PicturePoint = z.infer<typeof PicturePoint>;
