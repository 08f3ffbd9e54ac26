import type { Light } from '../../../../src/host/contract/looks.ts';

export type LightPart = keyof Light;

/** Least and most of each control; 1 is as filmed. */
export const lightRange: Readonly<Record<LightPart, { readonly least: number; readonly most: number }>> = {
  brightness: { least: 0.5, most: 2 },
  contrast: { least: 0.5, most: 2 },
  gamma: { least: 0.5, most: 2.5 },
};

/** One press of a key. */
export const lightStep = 0.1;

export const asFilmed: Light = { brightness: 1, contrast: 1, gamma: 1 };

/** A value of a control as it may be: within its range, in hundredths; as filmed where it is no number. */
export function lightWithin(part: LightPart, value: number): number {
  if (Number.isNaN(value)) return 1;
  const { least, most } = lightRange[part];
  return Math.round(Math.max(least, Math.min(most, value)) * 100) / 100;
}

export function lit(light: Light, part: LightPart, value: number): Light {
  return { ...light, [part]: lightWithin(part, value) };
}

export const isAsFilmed = (light: Light): boolean =>
  light.brightness === 1 && light.contrast === 1 && light.gamma === 1;

/** Numbers of the two component transfers that light a picture: first gain and gamma, then contrast. */
export interface Transfer {
  readonly amplitude: number;
  readonly exponent: number;
  readonly slope: number;
  readonly intercept: number;
}

/**
 * The transfer functions of a light, on values from 0 to 1 (Filter Effects Module Level 1, W3C, feComponentTransfer):
 * first `amplitude * v ^ exponent`, then `slope * v + intercept`, which turns about mid-grey.
 */
export function transferOf(light: Light): Transfer {
  const contrast = lightWithin('contrast', light.contrast);
  return {
    amplitude: lightWithin('brightness', light.brightness),
    exponent: 1 / lightWithin('gamma', light.gamma),
    slope: contrast,
    intercept: (1 - contrast) / 2,
  };
}
