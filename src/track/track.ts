import { z } from 'zod';
import { PicturePoint } from '../course/points.ts';

const id = z.string().min(1).max(80);

/** Points of the dog's body that a line can follow. */
export const dogPoints = [
  'leftFrontPaw',
  'rightFrontPaw',
  'leftHindPaw',
  'rightHindPaw',
  'chest',
  'withers',
  'croup',
  'nose',
] as const;
export type DogPoint = (typeof dogPoints)[number];

/** Points of the handler's body that a line can follow. */
export const handlerPoints = ['leftFoot', 'rightFoot', 'hips', 'shoulders'] as const;
export type HandlerPoint = (typeof handlerPoints)[number];

/** Most marks that one track can hold: every frame of two minutes at 240 a second, and some. */
export const mostTrackMarks = 30_000;

/** Where the point was clicked on one frame. */
export const TrackMark = z.strictObject({
  pts: z.int(),
  at: PicturePoint,
  /** `ground`: the point touches the ground there. `air`: it is above it, and its place follows from the rest. */
  contact: z.enum(['ground', 'air']),
  /** How far the click may be off, pixels of the upright picture, one standard deviation; absent: as usually. */
  unsure: z.number().min(0).max(1000).optional(),
});
export type TrackMark = z.infer<typeof TrackMark>;

const marked = {
  id,
  footageId: id,
  /** `wait`: where the point stood while the dog waited at the start line, not where it ran. */
  during: z.enum(['run', 'wait']).default('run'),
  marks: z.array(TrackMark).max(mostTrackMarks).default([]),
};

/** One body point of dog or handler, clicked on the frames of one clip. Marks stand in any order. */
export const Track = z.discriminatedUnion('who', [
  z.strictObject({ ...marked, who: z.literal('dog'), point: z.enum(dogPoints) }),
  z.strictObject({ ...marked, who: z.literal('handler'), point: z.enum(handlerPoints) }),
]);
export type Track = z.infer<typeof Track>;
