import type { ClipClock } from '../../../../src/time/bracket.ts';
import { cellOf, framesWithin } from '../../../../src/review/cells.ts';
import { xAt, type Span } from './scale.ts';

/** A place of the strip and the frame that is shown there. Pixels of the line. */
export interface StripCell {
  readonly frame: number;
  /** Where the frame begins on the line of time. */
  readonly left: number;
  /** Where the next cell, or the clip, leaves off. */
  readonly right: number;
}

/** Every so many frames: of 1, 2, 3, 4, 6, 8, 12 … the least that is enough, so that zooming keeps most pictures. */
export function everySoMany(least: number): number {
  if (least <= 1) return 1;
  const power = 2 ** Math.floor(Math.log2(least));
  return [power, power * 1.5, power * 2].find((n) => n >= least && Number.isInteger(n)) ?? power * 2;
}

/**
 * Where the small pictures lie: each begins where its own frame does, none lies over another, and there are as many
 * as fit. Where a frame is as wide as a picture, each frame has its own cell. Frames of uneven length are left out
 * where they crowd, never moved.
 * @param picture width of a small picture, pixels
 */
export function stripCells(clock: ClipClock, view: Span, width: number, picture: number): StripCell[] {
  const { from, to } = framesWithin(clock, view);
  if (to < from || width <= 0 || !(picture > 0)) return [];
  const x = (at: number): number => xAt(view, width, at);
  const start = x(cellOf(clock, from).from);
  const end = x(cellOf(clock, to).to);
  const each = (end - start) / (to - from + 1);
  // Rounding of doubles must not leave out every other frame.
  const every = everySoMany(picture / Math.max(each, 1e-9) - 1e-6);
  const cells: { frame: number; left: number; right: number }[] = [];
  for (let frame = Math.floor(from / every) * every; frame <= to; frame += every) {
    const left = x(cellOf(clock, frame).from);
    const before = cells.at(-1);
    if (before && left < before.left + picture - 1e-6) continue;
    if (before) before.right = left;
    cells.push({ frame, left, right: left });
  }
  const last = cells.at(-1);
  if (last) {
    const ends = Math.min(clock.table.pts.length - 1, last.frame + every - 1);
    last.right = x(cellOf(clock, ends).to);
  }
  return cells.filter((c) => c.right > 0 && c.left < width);
}

/** The cell under a place of the line. */
export function cellAt(cells: readonly StripCell[], x: number): StripCell | undefined {
  return cells.findLast((c) => c.left <= x && x < c.right);
}
