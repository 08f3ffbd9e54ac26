/** Speed of sound in dry air at 20 degrees C, metres a second (ISO 9613-1 tables round to it). */
export const speedOfSound = 343;

/** The same on a cold day, -10 degrees C: 331.3 + 0.606 t, the usual linear form. */
const coldSpeedOfSound = 325;

/**
 * Two recorders may put sound against their own picture this differently, seconds. EBU R 37 ("The relative timing of
 * the sound and vision components of a television signal") allows one stage of production 5 ms early to 15 ms late.
 */
export const recorders = 0.02;

/** How far two clocks may run apart: quartz of 50 parts per million each (common practice). */
export const clockDrift = 100e-6;

/** What a line-up's plus or minus is made of, seconds each. */
export interface SoundAllowance {
  /** Camera spacing / 343 m/s: no sound reaches one camera later than the other by more (triangle inequality). */
  readonly air: number;
  /** More of that on a cold day. */
  readonly cold: number;
  /** Recorders' sound against their picture. */
  readonly recorders: number;
  /** Clocks that run apart, at the end that lies farthest from what was compared. */
  readonly clocks: number;
  /** By how much the sounds that were compared disagree beyond what the air explains. */
  readonly measured: number;
}

/**
 * The stated bound of a line-up by sound: camera spacing / 343 m/s plus the allowance. Sound lines up the sound, not
 * the light: a far camera hears everything later than it sees it, and nothing in the sound tells by how much.
 * @param spacing metres between the cameras
 * @param farthest seconds from the middle of what was compared to the end of a clip that lies farthest
 * @param drift how far the clocks may still run apart, seconds a second
 * @param halfRange half the range of delays that were found, seconds
 */
export function soundAllowance(
  spacing: number,
  farthest: number,
  drift: number,
  halfRange: number,
): SoundAllowance {
  const air = spacing / speedOfSound;
  return {
    air,
    cold: spacing / coldSpeedOfSound - air,
    recorders,
    clocks: drift * farthest,
    measured: Math.max(leastMeasured, halfRange - air),
  };
}

/** No delay is told better than this, seconds: a few samples, and the frames of a sound codec. */
const leastMeasured = 0.001;

/** All parts together. */
export function plusMinusOf(a: SoundAllowance): number {
  return a.air + a.cold + a.recorders + a.clocks + a.measured;
}
