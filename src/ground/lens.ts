import type { PlanePoint } from './homography.ts';

/**
 * Radial distortion about the middle of the picture (Brown 1966, even terms): a point that a straight lens would show
 * at r is seen at r (1 + k1 r² + k2 r⁴), where r is counted in half diagonals of the picture.
 */
export interface Lens {
  readonly k1: number;
  readonly k2: number;
}

/** Where a straight picture is bent to. Points from the middle, in half diagonals. */
export function bent({ k1, k2 }: Lens, { x, y }: PlanePoint): PlanePoint {
  const r2 = x * x + y * y;
  const by = 1 + r2 * (k1 + k2 * r2);
  return { x: x * by, y: y * by };
}

/** How far out the picture folds over: beyond this r more of the straight picture lies nearer. Half diagonals. */
export function foldOf({ k1, k2 }: Lens): number {
  // Roots of 1 + 3 k1 s + 5 k2 s² in s = r².
  if (k2 === 0) return k1 < 0 ? Math.sqrt(-1 / (3 * k1)) : Infinity;
  const under = 9 * k1 * k1 - 20 * k2;
  if (under < 0) return Infinity;
  const roots = [-1, 1].map((sign) => (-3 * k1 + sign * Math.sqrt(under)) / (10 * k2)).filter((s) => s > 0);
  return Math.sqrt(Math.min(Infinity, ...roots));
}

/** Undoes the bending; null where the lens shows nothing of the straight picture so far out. */
export function straightened(lens: Lens, { x, y }: PlanePoint): PlanePoint | null {
  const seen = Math.hypot(x, y);
  if (seen === 0 || (lens.k1 === 0 && lens.k2 === 0)) return { x, y };
  const out = (r: number): number => r * (1 + r * r * (lens.k1 + lens.k2 * r * r));
  const fold = foldOf(lens);
  let low = 0;
  let high = Math.min(fold, 10);
  if (out(high) < seen) return null;
  let r = Math.min(seen, high);
  for (let i = 0; i < 60; i++) {
    const off = out(r) - seen;
    if (off > 0) high = r;
    else low = r;
    const slope = 1 + r * r * (3 * lens.k1 + 5 * lens.k2 * r * r);
    const next = r - off / slope;
    const better = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(better - r) <= 1e-15 * (1 + r)) break;
    r = better;
  }
  return { x: (x * r) / seen, y: (y * r) / seen };
}
