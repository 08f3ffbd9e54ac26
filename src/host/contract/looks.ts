import { z } from 'zod';

/** How the pictures of a clip are lit on the screen, and nowhere else. 1 is as filmed. */
export const Light = z.object({
  /** Gain. */
  brightness: z.number().min(0.5).max(2),
  /** Slope about mid-grey. */
  contrast: z.number().min(0.5).max(2),
  /** Above 1 the dark parts come up. */
  gamma: z.number().min(0.5).max(2.5),
});
export type Light = z.infer<typeof Light>;

const share = z.number().min(0).max(1);

/** A place of the magnifier that was set at a frame. Fractions of the upright picture. */
export const SetPlace = z.object({ pts: z.number(), x: share, y: share });
export type SetPlace = z.infer<typeof SetPlace>;

/** How closely the pictures of a clip are looked at: how much enlarged, and about which place. */
export const Magnifier = z.object({
  zoom: z.number().min(1).max(8),
  x: share,
  y: share,
  /** Between these the place glides; in order of time, one a frame. */
  places: z.array(SetPlace).max(500),
});
export type Magnifier = z.infer<typeof Magnifier>;

/** How the real line is shown, and what counts as a step at the start line. */
export const RealLineLook = z.object({
  /** Lines laid over the footage and the map. */
  dog: z.boolean().default(true),
  handler: z.boolean().default(true),
  band: z.boolean().default(true),
  wanted: z.boolean().default(true),
  likely: z.boolean().default(false),
  /** Over the footage: only what lies some seconds around the frame on the screen, or all of the run. */
  over: z.enum(['near', 'whole']).default('near'),
  /** How her speed is told along the line. */
  speed: z.enum(['shade', 'width', 'plain']).default('shade'),
  /** A paw that moves by more than this many metres has stepped. */
  stepCounts: z.number().min(0.005).max(0.5).default(0.03),
});
export type RealLineLook = z.infer<typeof RealLineLook>;
