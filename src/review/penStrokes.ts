import { pointsKept } from '../line/thin.ts';
import type { Drawing } from './marks.ts';

export type Ink = Drawing['strokes'][number]['ink'];

/** Something drawn over the picture. Points are fractions of the upright picture: x1, y1, x2, y2 … */
export interface Shape {
  readonly shape: 'stroke';
  readonly ink: Ink;
  /** Share of the picture's longer side. */
  readonly width: number;
  readonly points: readonly number[];
}

/** The pen's width as a share of the picture's longer side: 5 px on 1280. */
export const penWidth = 5 / 1280;

/** What is drawn on one frame, in the order it was drawn. */
export function shapesOn(
  drawings: readonly Drawing[],
  footageId: string | null,
  pts: number | null,
): readonly Shape[] {
  return drawings
    .filter((d) => d.footageId === footageId && d.pts === pts)
    .flatMap((d) =>
      d.strokes.map(({ ink, points }): Shape => ({ shape: 'stroke', ink, width: penWidth, points })),
    );
}

const most = 20_000;

/**
 * A stroke with the points left out that lie within `tolerance` of the line without them (Ramer 1972, Douglas and
 * Peucker 1973), so that a long stroke stays small. Distances count in widths of the picture; `shape` is its
 * height over its width. A touch without movement becomes a dot of two points.
 */
export function simplified(points: readonly number[], shape: number, tolerance = 0.0008): number[] {
  const count = points.length >> 1;
  const x = (i: number): number => points[2 * i] ?? 0;
  const y = (i: number): number => points[2 * i + 1] ?? 0;
  if (count < 2) return [x(0), y(0), x(0), y(0)];
  const keep = pointsKept(count, x, (i) => y(i) * shape, tolerance);
  const kept: number[] = [];
  for (let i = 0; i < count; i++) if (keep[i]) kept.push(clamped(x(i)), clamped(y(i)));
  return kept.length <= most ? kept : kept.slice(0, most);
}

/** Strokes may run a little off the picture, as a hand does. */
function clamped(v: number): number {
  return Math.max(-1, Math.min(2, Math.round(v * 1e5) / 1e5));
}
