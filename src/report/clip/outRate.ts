import type { FrameTable } from '../../time/frameTable.ts';

/** Pictures a second, as a fraction. */
export interface OutRate {
  readonly num: number;
  readonly den: number;
}

/** Most pictures a second that every phone of the last ten years plays at full size (common practice). */
const most = 60;

/** Rates that cameras write (SMPTE and common practice), so that 29.97 is not told as 29.968. */
const usual: readonly OutRate[] = [24, 30, 48, 60, 120, 240]
  .flatMap((n) => [
    { num: n * 1000, den: 1001 },
    { num: n, den: 1 },
  ])
  .concat([25, 50, 100].map((num) => ({ num, den: 1 })));

/** How far a rate may lie off the mean of a range and still be its own: clocks jitter. */
const alike = 0.01;
/** How far a frame may lie off an even rate before the rate counts as uneven, in frames. */
const uneven = 0.4;

/**
 * The constant rate of a clip that shows these frames: their own where it is even, divided by a whole number where a
 * phone could not follow; else the most there is, so that uneven frames lie as near to their times as can be.
 */
export function outRate(table: FrameTable, from: number, to: number): OutRate {
  const count = to - from;
  const seconds = (((table.pts[to] ?? 0) - (table.pts[from] ?? 0)) * table.timeBase.num) / table.timeBase.den;
  if (count < 1 || !(seconds > 0)) return { num: 30, den: 1 };
  const mean = count / seconds;
  const off = ({ num, den }: OutRate): number => Math.abs(num / den / mean - 1);
  const near = usual.filter((rate) => off(rate) < alike).sort((a, b) => off(a) - off(b));
  const own = [...near, { num: Math.round(mean * 1000), den: 1000 }].find((rate) =>
    isEven(table, from, to, rate),
  );
  if (!own) return { num: most, den: 1 };
  const by = Math.max(1, Math.ceil(own.num / own.den / most - 1e-6));
  return { num: own.num, den: own.den * by };
}

/** Whether frame after frame lies where this rate would put it. */
function isEven(table: FrameTable, from: number, to: number, rate: OutRate): boolean {
  const { timeBase, pts } = table;
  const start = pts[from] ?? 0;
  const perTick = (timeBase.num * rate.num) / (timeBase.den * rate.den);
  for (let i = from + 1; i <= to; i++) {
    if (Math.abs(((pts[i] ?? 0) - start) * perTick - (i - from)) > uneven) return false;
  }
  return true;
}
