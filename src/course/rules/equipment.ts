import { z } from 'zod';
import { entryOf, Range, RangeByCategory } from './entry.ts';

const size = entryOf(Range).optional();
const sizeByCategory = entryOf(RangeByCategory).optional();

/** Dimensions of equipment, centimetres (poles: a count). What a book does not say is left out. */
export const EquipmentRules = z.strictObject({
  barJump: z
    .strictObject({
      barLength: size,
      barDiameter: size,
      wingWidth: size,
      wingHeight: size,
      /** How high the wing is closed. */
      wingFilled: size,
    })
    .optional(),
  spread: z
    .strictObject({
      /** How much higher the back bar lies than the front bar. */
      heightStep: size,
      /** How much longer the back bar is than the front bar. */
      backBarLonger: size,
      depth: sizeByCategory,
    })
    .optional(),
  wall: z.strictObject({ thickness: size }).optional(),
  tyre: z.strictObject({ aperture: size, centreHeight: sizeByCategory }).optional(),
  longJump: z
    .strictObject({
      /** From the front of the first unit to the back of the last. */
      length: sizeByCategory,
      /** How many units, by category. */
      units: sizeByCategory,
      frontUnitHeight: size,
      backUnitHeight: size,
      unitWidth: size,
      unitDepth: size,
    })
    .optional(),
  tunnel: z.strictObject({ diameter: size, length: size }).optional(),
  weavePoles: z.strictObject({ poles: size, spacing: size, poleHeight: size, poleDiameter: size }).optional(),
  aFrame: z
    .strictObject({
      /** Height of the ridge above the ground. */
      apex: size,
      rampLength: size,
      widthAtTop: size,
      widthAtBase: size,
      /** Length of a contact zone along the ramp. */
      contactLength: size,
    })
    .optional(),
  dogWalk: z
    .strictObject({ plankLength: size, plankWidth: size, height: size, contactLength: size })
    .optional(),
  seeSaw: z.strictObject({ plankLength: size, pivotHeight: size, contactLength: size }).optional(),
  table: z.strictObject({ side: size, height: sizeByCategory }).optional(),
});
export type EquipmentRules = z.infer<typeof EquipmentRules>;
