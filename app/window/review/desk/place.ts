import type { ClipClock } from '../../../../src/time/bracket.ts';
import { runTimeAt } from '../../../../src/time/bracket.ts';
import { frameSeconds, lastFrame, ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex } from '../../../../src/time/units.ts';
import type { Spot } from '../marking/act.ts';
import { cellOf, clipSpan, frameShownAt } from '../../../../src/review/cells.ts';

/**
 * By how much a press may lag what was seen while the run plays, in seconds of real time. Assumed: a simple
 * reaction to something seen takes about a fifth of a second (from memory; common in textbooks).
 */
export const reactionSeconds = 0.2;

/** Frames that a press during playback may be off: the reaction's share of the film, never less than one. */
export function reactionFrames(clock: ClipClock, frame: number, speed: number): number {
  const last = lastFrame(clock.table);
  const here = frameIndex(Math.max(0, Math.min(last, frame)));
  const reach = frameIndex(Math.max(0, here - 1));
  const next = frameIndex(Math.min(last, reach + 1));
  const each = next > reach ? frameSeconds(clock.table, next) - frameSeconds(clock.table, reach) : 1;
  return Math.max(1, Math.min(10_000, Math.ceil((reactionSeconds * speed) / each - 1e-9)));
}

/** The spot of a frame, with its run time. */
export function spotAt(
  footageId: string,
  clock: ClipClock,
  frame: number,
  unsure: number,
): Spot & { readonly now: number } {
  const at = ptsOf(clock.table, frameIndex(frame));
  return { footageId, pts: at, unsure, now: runTimeAt(clock, at) };
}

/** The instant that stands for a frame when another angle is asked for: half-way through it, run time. */
export function instantOf(clock: ClipClock, frame: number): number {
  const cell = cellOf(clock, frame);
  return (cell.from + cell.to) / 2;
}

/** An instant on a clip: the frame that shows it, and by how far the clip misses it (negative: it begins later). */
export function instantOn(clock: ClipClock, at: number): { readonly frame: number; readonly away: number } {
  const span = clipSpan(clock);
  const away = at < span.from ? at - span.from : at >= span.to ? at - span.to : 0;
  return { frame: frameShownAt(clock, at), away };
}
