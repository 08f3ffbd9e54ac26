import { z } from 'zod';

/** Most poles that a set of weave poles can have (see Sizes of the course). */
const mostPoles = 24;

/**
 * Parts of a course that stand on the ground and that a picture shows. Left and right, front and back are those of a
 * dog that takes the piece forward; mouths and poles are counted that way too.
 */
const plainParts = [
  'leftWing',
  'rightWing',
  'leftUpright',
  'rightUpright',
  'backLeftWing',
  'backRightWing',
  'backLeftUpright',
  'backRightUpright',
  'leftFoot',
  'rightFoot',
  'frontLeft',
  'frontRight',
  'backLeft',
  'backRight',
  'firstMouthLeft',
  'firstMouthRight',
  'secondMouthLeft',
  'secondMouthRight',
  'upLeft',
  'upRight',
  'downLeft',
  'downRight',
  'ringCorner1',
  'ringCorner2',
  'ringCorner3',
  'ringCorner4',
  'startFrom',
  'startTo',
  'finishFrom',
  'finishTo',
] as const;
export type PlainPart = (typeof plainParts)[number];
export type PartName = PlainPart | `pole${number}`;

const poles = Array.from({ length: mostPoles }, (_, i): `pole${number}` => `pole${i + 1}`);

/** Which part of which piece: an identity that stays when the piece is moved, turned or renumbered. */
export const Part = z.strictObject({
  /** The piece; absent for corners of the ring and posts of the start and finish lines. */
  obstacleId: z.string().min(1).max(80).optional(),
  part: z.enum([...plainParts, ...poles] as readonly PartName[]),
});
export type Part = z.infer<typeof Part>;

/** The identity as one text, for looking parts up. */
export const partKey = ({ obstacleId, part }: Part): string => `${part} ${obstacleId ?? ''}`;
