import type { FrameTable } from '../time/frameTable.ts';

/** How a copy's frame times compare with the original's. */
export type CopyCheck =
  | {
      readonly equal: true;
      /** Ticks of the original's time base to add to a time of the original for the time in the copy. */
      readonly shift: number;
    }
  | { readonly equal: false; readonly count: readonly [number, number] }
  | { readonly equal: false; readonly frame: number };

/**
 * Whether every frame of `copy` stands where `original` has it, counted from the first frame of each; exactly, in
 * whole numbers, whatever the two time bases.
 */
export function checkCopy(original: FrameTable, copy: FrameTable): CopyCheck {
  if (original.pts.length !== copy.pts.length) {
    return { equal: false, count: [original.pts.length, copy.pts.length] };
  }
  const [a, b] = [original.timeBase, copy.timeBase];
  // Ticks of both in one unit: a.num/a.den and b.num/b.den seconds over the common denominator.
  const scaleA = BigInt(a.num) * BigInt(b.den);
  const scaleB = BigInt(b.num) * BigInt(a.den);
  const firstA = original.pts[0] ?? 0;
  const firstB = copy.pts[0] ?? 0;
  for (let i = 0; i < original.pts.length; i++) {
    const inA = BigInt((original.pts[i] ?? 0) - firstA) * scaleA;
    const inB = BigInt((copy.pts[i] ?? 0) - firstB) * scaleB;
    if (inA !== inB) return { equal: false, frame: i };
  }
  const start = BigInt(firstB) * scaleB;
  // A first frame between two ticks of the original's clock cannot be stated as a shift.
  if (start % scaleA !== 0n) return { equal: false, frame: 0 };
  return { equal: true, shift: Number(start / scaleA) - firstA };
}

/** Ticks between frames where all gaps are the same, else null. */
export function evenGap(table: FrameTable): number | null {
  const gap = (table.pts[1] ?? 0) - (table.pts[0] ?? 0);
  if (gap <= 0) return null;
  return table.pts.every((at, i) => i === 0 || at - (table.pts[i - 1] ?? 0) === gap) ? gap : null;
}
