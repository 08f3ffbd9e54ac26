import { cellOf, frameShownAt, framesOfCut } from '../../review/cells.ts';
import { heldAt, type Lock } from '../../review/compare/lock.ts';
import type { RunBeside } from '../../review/compare/sideBySide.ts';
import type { Cut } from '../../review/document.ts';
import type { ClipClock } from '../../time/bracket.ts';
import type { Shot } from './timeline.ts';

/** A run as another is held to it. */
interface Held {
  readonly clock: ClipClock;
  readonly run: RunBeside;
  readonly cut?: Cut | undefined;
}

/**
 * The frames of a second run beside those of the first: at each moment of the first the frame that shows the same place
 * of the course, or the same time of the run, as the lock of the compare screen has it. It never runs backwards; where
 * the runs share nothing it stays where it is.
 * @returns null where they share nothing at all
 */
export function shotsBeside(
  shots: readonly Shot[],
  leader: Held,
  other: Held,
  lock: Lock,
): readonly { readonly frame: number; readonly at: number }[] | null {
  const { first, last } = framesOfCut(other.clock, other.cut);
  const found = shots.map(({ frame }) => {
    const cell = cellOf(leader.clock, frame);
    const there = heldAt(lock, (cell.from + cell.to) / 2, leader.run, other.run);
    return there === null ? null : Math.max(first, Math.min(last, frameShownAt(other.clock, there)));
  });
  const begin = found.find((frame) => frame !== null);
  if (begin === undefined || begin === null) return null;
  const beside: { frame: number; at: number }[] = [];
  shots.forEach(({ at }, i) => {
    const before = beside.at(-1);
    const frame = Math.max(found[i] ?? before?.frame ?? begin, before?.frame ?? 0);
    if (frame !== before?.frame) beside.push({ frame, at });
  });
  return beside;
}
