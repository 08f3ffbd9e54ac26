import type { ClipClock } from '../../../../src/time/bracket.ts';
import { runTimeAt } from '../../../../src/time/bracket.ts';
import { frameSeconds, lastFrame, ptsOf } from '../../../../src/time/frameTable.ts';
import { frameIndex } from '../../../../src/time/units.ts';
import type { Spot } from '../marking/act.ts';
import { cellOf, frameShownAt } from '../line/cells.ts';

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

/** The frame of another clip that shows the same instant: the one shown half-way through this frame. */
export function sameInstant(from: ClipClock, frame: number, to: ClipClock): number {
  const cell = cellOf(from, frame);
  return frameShownAt(to, (cell.from + cell.to) / 2);
}
