import type { LineRange } from '../line/line.ts';
import { least, most, type Quantity } from '../time/quantity.ts';
import type { Split } from './analysis.ts';

/** How fast she was from out to out, and over which line that is said. */
export interface StretchSpeed {
  readonly from: number;
  readonly to: number;
  readonly speed: Quantity;
  /**
   * `real`: the line that was measured. `realPart`: that too, but part of it nobody marked, and there its length is a
   * guess. `likely`: the one she was likely to take, since none was measured there.
   */
  readonly over: 'real' | 'realPart' | 'likely';
}

/** Metres a second over the real line. */
export interface RealSpeed {
  readonly speed: Quantity;
  /** True where part of the stretch was not marked. */
  readonly gap: boolean;
}

/**
 * Metres from out to out on the likely line, by the number that ends the stretch. The plus or minus reaches from a dog
 * that turns as tightly as is assumed possible to one that turns as widely.
 */
export function likelyLengths({ tight, usual, wide }: LineRange): ReadonlyMap<number, Quantity> {
  const [low, middle, high] = [tight, usual, wide].map(outToOut);
  const lengths = new Map<number, Quantity>();
  for (const [to, value] of middle ?? []) {
    const [a, b] = [low?.get(to), high?.get(to)];
    if (a === undefined || b === undefined) continue;
    const plusMinus = Math.max(Math.abs(a - value), Math.abs(b - value));
    lengths.set(to, { value, plusMinus, unit: 'm' });
  }
  return lengths;
}

function outToOut({ steps, stretches }: LineRange['usual']): ReadonlyMap<number, number> {
  const through = new Map(steps.map((s) => [s.number, wayLength(s.through)]));
  return new Map(
    stretches.flatMap(({ from, to, length }) => {
      const on = to === null ? undefined : through.get(to);
      return from === null || to === null || on === undefined ? [] : [[to, length + on] as const];
    }),
  );
}

function wayLength(points: readonly { readonly x: number; readonly y: number }[]): number {
  return points.slice(1).reduce((sum, p, i) => {
    const before = points[i] ?? p;
    return sum + Math.hypot(p.x - before.x, p.y - before.y);
  }, 0);
}

/**
 * The speed of every stretch between two numbers that follow each other: over the real line where it was measured, else
 * over the likely line. A stretch with neither, or without time, is left out.
 * @param real speeds over the real line, by the number that ends the stretch
 * @param likely metres of the likely line, by the same
 */
export function stretchSpeeds(
  splits: readonly Split[],
  real: ReadonlyMap<number, RealSpeed>,
  likely: ReadonlyMap<number, Quantity>,
): readonly StretchSpeed[] {
  return splits.flatMap(({ from, to, time }): StretchSpeed[] => {
    if (from === null || from !== to - 1) return [];
    const measured = real.get(to);
    if (measured) return [{ from, to, speed: measured.speed, over: measured.gap ? 'realPart' : 'real' }];
    const length = likely.get(to);
    if (!length || !(least(time) > 0)) return [];
    const value = length.value / time.value;
    const [low, high] = [least(length) / most(time), most(length) / least(time)];
    const plusMinus = Math.max(value - low, high - value);
    return [{ from, to, speed: { value, plusMinus, unit: 'm/s' }, over: 'likely' }];
  });
}
