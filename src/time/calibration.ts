import { frameSpanOf } from './bracket.ts';
import { ptsAfter, ptsBefore, ptsOf, lastFrame, type FrameTable } from './frameTable.ts';
import type { SaidSpeed } from './speedEdits.ts';
import { ticksToSeconds } from './timeBase.ts';
import { frameIndex, type Pts } from './units.ts';

/**
 * The speed of a stretch between two frames whose real distance in time is known: a clock or a stopwatch in the picture,
 * or two sounds that were timed. Both frames are the first that show the moment, so each moment lies in the gap before
 * its frame. The answer is the middle of all speeds that fit, plus or minus the rest.
 * @param from frame on which the first moment is seen
 * @param to frame on which the second is seen
 * @param seconds real seconds between the two
 * @param plusMinus how far `seconds` may be off
 * Null where nothing can be told: the moments are too close, or the seconds may be nought.
 */
export function calibrated(
  table: FrameTable,
  from: Pts,
  to: Pts,
  seconds: number,
  plusMinus: number,
): SaidSpeed | null {
  if (!(seconds > 0 && plusMinus >= 0 && plusMinus < seconds && Number.isFinite(seconds))) return null;
  const a = gapOf(table, from);
  const b = gapOf(table, to);
  const shortest = b.from - a.to;
  const longest = b.to - a.from;
  if (!(shortest > 0)) return null;
  const slowest = (seconds - plusMinus) / longest;
  const fastest = (seconds + plusMinus) / shortest;
  return { speed: (slowest + fastest) / 2, plusMinus: (fastest - slowest) / 2 };
}

/** Media seconds between which a first-seen moment lies. */
function gapOf(table: FrameTable, at: Pts): { readonly from: number; readonly to: number } {
  const span = frameSpanOf(table, at, 'first');
  const edge = (index: number): number => {
    if (index < 0) return ticksToSeconds(table.timeBase, ptsBefore(table, frameIndex(0)));
    const last = lastFrame(table);
    if (index > last) return ticksToSeconds(table.timeBase, ptsAfter(table, last));
    return ticksToSeconds(table.timeBase, ptsOf(table, frameIndex(index)));
  };
  return { from: edge(span.from), to: edge(span.to) };
}
