import type { Course } from './course.ts';
import type { GroundPoint } from './points.ts';

export type LengthUnit = NonNullable<Course['unit']>;

/** Metres of a foot (international, exact). */
export const foot = 0.3048;

/** The grid in a unit, in metres: between lines, between strong lines, and the step that things are put on. */
export const gridOf = (
  unit: LengthUnit,
): { readonly line: number; readonly strong: number; readonly step: number } =>
  unit === 'feet' ? { line: 5 * foot, strong: 10 * foot, step: foot } : { line: 1, strong: 5, step: 0.5 };

/** The nearest place on a grid of this step, metres. */
export const onGrid = (p: GroundPoint, step: number): GroundPoint => ({
  x: Math.round(p.x / step) * step,
  y: Math.round(p.y / step) * step,
});

/** A length in a unit. */
export const inUnit = (metres: number, unit: LengthUnit): number =>
  unit === 'feet' ? metres / foot : metres;

/** Metres of a length in a unit. */
export const fromUnit = (value: number, unit: LengthUnit): number => (unit === 'feet' ? value * foot : value);
