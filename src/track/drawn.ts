import type { GroundPoint } from '../course/points.ts';
import { speedShades } from '../look/tokens.ts';
import type { LineSample } from './samples.ts';

/** A piece of a line that is painted alike. */
export interface DrawnPiece {
  readonly points: readonly GroundPoint[];
  /** Step of the scale of speeds, 0 the slowest; null: all alike. */
  readonly shade: number | null;
  /** Width on the screen. */
  readonly pixels: number;
  /** Between marks that lie too far apart: a guess. */
  readonly dashed: boolean;
}

export type SpeedAs = 'shade' | 'width' | 'plain';

const steps = speedShades.length;
/** Widths from slow to fast, pixels. */
const widths = [2, 3, 4.5, 6, 8] as const;
const plainWidth = 3.5;

/** The speeds that the scale runs between, m/s, in whole ones: from the slowest to the fastest of a line. */
export function speedRange(samples: readonly LineSample[]): { readonly from: number; readonly to: number } {
  const speeds = samples.filter((s) => !s.gap).map((s) => s.speed);
  if (speeds.length === 0) return { from: 0, to: 1 };
  const from = Math.floor(speeds.reduce((a, b) => Math.min(a, b)));
  return { from, to: Math.max(from + 1, Math.ceil(speeds.reduce((a, b) => Math.max(a, b)))) };
}

/** A line in pieces, each of one speed. Neighbours share their end, so that nothing gapes. */
export function drawnPieces(
  samples: readonly LineSample[],
  speed: SpeedAs,
  { from, to } = speedRange(samples),
): readonly DrawnPiece[] {
  const stepOf = (s: LineSample): number =>
    speed === 'plain'
      ? 0
      : Math.max(0, Math.min(steps - 1, Math.floor(((s.speed - from) / (to - from)) * steps)));
  const pieces: DrawnPiece[] = [];
  let run: GroundPoint[] = [];
  samples.forEach((s, i) => {
    const next = samples[i + 1];
    if (run.length === 0) run.push(s);
    if (!next) return;
    run.push(next);
    const after = samples[i + 2];
    const same = after && stepOf(next) === stepOf(s) && next.gap === s.gap;
    if (same) return;
    const step = stepOf(s);
    pieces.push({
      points: run,
      shade: speed === 'shade' ? step : null,
      pixels: speed === 'width' ? (widths[step] ?? plainWidth) : plainWidth,
      dashed: s.gap,
    });
    run = [];
  });
  return pieces;
}

/** Wider than this a band says nothing but that it is not known, metres. */
const widest = 3;

/** The band of a line as four-cornered pieces, from moment to moment; none where it was not seen. */
export function bandPieces(samples: readonly LineSample[]): readonly (readonly GroundPoint[])[] {
  return samples.slice(1).flatMap((b, i) => {
    const a = samples[i];
    if (!a || a.gap || b.gap) return [];
    if (Math.hypot(a.left.x - a.right.x, a.left.y - a.right.y) > 2 * widest) return [];
    return [[a.left, b.left, b.right, a.right]];
  });
}

/** Where a point of the ground is painted; null where it cannot be seen. */
export type Placing = (p: GroundPoint) => GroundPoint | null;

const written = (v: number): string => (Math.round(v * 100) / 100).toString();

/** The path of a line in SVG's words; broken where a point cannot be seen. */
export function pathOf(points: readonly GroundPoint[], place: Placing, closed = false): string {
  let path = '';
  let on = false;
  for (const p of points) {
    const at = place(p);
    if (!at) {
      if (closed) return '';
      on = false;
      continue;
    }
    path += `${on ? 'L' : 'M'}${written(at.x)} ${written(at.y)}`;
    on = true;
  }
  return closed && path !== '' ? `${path}Z` : path;
}
