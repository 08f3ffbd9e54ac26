/** Bounds are shown to the hundredth, and may be typed as they are shown. */
const asShown = 0.005;

/**
 * A number as it is typed, with a point or a comma, brought into the unit it is kept in; undefined where nothing was
 * typed, null where it is no number or outside of the bounds, which are in that unit.
 */
export function typedWithin(
  text: string,
  least: number,
  most: number,
  kept: (typed: number) => number = (typed) => typed,
): number | undefined | null {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return undefined;
  const value = kept(Number(plain));
  if (!(value >= least - asShown && value <= most + asShown)) return null;
  return Math.min(most, Math.max(least, value));
}
