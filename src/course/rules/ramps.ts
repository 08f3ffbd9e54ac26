/** Slope of a ramp of this length that rises so far, radians (arithmetic). Same unit for both. */
export const slope = (rise: number, ramp: number): number => Math.asin(rise / ramp);

/** Length on the ground of so much of a ramp. */
export const onGround = (along: number, rise: number, ramp: number): number =>
  along * Math.cos(slope(rise, ramp));

/** Length on the ground of an A-frame: two ramps that meet at the apex. */
export const aFrameFootprint = (apex: number, ramp: number): number => 2 * onGround(ramp, apex, ramp);

/** Length on the ground of a dog walk: a level plank between two that rise to it, all of one length. */
export const dogWalkFootprint = (plank: number, height: number): number =>
  plank + 2 * onGround(plank, height, plank);
