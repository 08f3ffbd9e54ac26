/**
 * The interval of Wilson (1927, JASA 22: 209-212) for a share that was counted, at 95 in 100: where the true share may
 * lie as far as so few tries tell. `done` and `tried` are counts, 0 <= done <= tried; undefined where nothing was tried.
 * Tries on one day are not independent: the true spread is wider then.
 */
export function wilson(
  done: number,
  tried: number,
): { readonly least: number; readonly most: number } | undefined {
  if (!(tried > 0)) return undefined;
  const z = 1.959963984540054;
  const share = done / tried;
  const middle = share + (z * z) / (2 * tried);
  const half = z * Math.sqrt((share * (1 - share)) / tried + (z * z) / (4 * tried * tried));
  const whole = 1 + (z * z) / tried;
  return { least: Math.max(0, (middle - half) / whole), most: Math.min(1, (middle + half) / whole) };
}
