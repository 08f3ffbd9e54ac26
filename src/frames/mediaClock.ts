import type { FrameTable } from '../time/frameTable.ts';
import { ptsAfter } from '../time/frameTable.ts';
import { frameIndex, mediaSeconds, type FrameIndex, type MediaSeconds } from '../time/units.ts';
import { secondsOf } from './alignment.ts';

/** Ties the times that a playing `<video>` names to the frames of a table. */
export interface MediaClock {
  /** The frame that is shown at this media time; null where no frame of the table starts there. */
  frameAt(mediaTime: number): FrameIndex | null;
  /** The last frame that starts at or before a time of the player: an estimate, where nothing better is known. */
  frameNear(time: number): FrameIndex;
  /** Where to send the player to show this frame: half-way through it. */
  middleOf(index: FrameIndex): MediaSeconds;
}

/** Browsers name media times in whole microseconds, and Matroska stores whole milliseconds. */
const coarsest = 0.001;
const slack = 2e-6;

/**
 * @param table every frame with its exact time
 * @param offsets seconds to add to the table's times to get the player's, the likeliest first. An offset under which
 * an observed time belongs to no frame is dropped, as long as another is left.
 */
export function mediaClock(table: FrameTable, offsets: readonly number[]): MediaClock {
  const starts = secondsOf(table);
  const lastIndex = starts.length - 1;
  const tick = table.timeBase.num / table.timeBase.den;
  const end = ptsAfter(table, frameIndex(lastIndex)) * tick;
  const near = Math.max(tick, coarsest) / 2 + slack;
  let left = offsets.length > 0 ? [...offsets] : [0];

  const at = (i: number): number => starts[i] ?? end;
  const before = (time: number): number => {
    let low = 0;
    let high = lastIndex;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (at(middle) <= time) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const match = (time: number): number | null => {
    const low = before(time);
    const nearest = low < lastIndex && at(low + 1) - time < time - at(low) ? low + 1 : low;
    const gap = Math.min(
      at(nearest + 1) - at(nearest),
      nearest > 0 ? at(nearest) - at(nearest - 1) : Infinity,
    );
    return Math.abs(at(nearest) - time) <= Math.min(near, gap * 0.45) ? nearest : null;
  };

  return {
    frameAt(mediaTime) {
      if (!Number.isFinite(mediaTime)) return null;
      const fitting = left.filter((offset) => match(mediaTime - offset) !== null);
      const best = fitting[0];
      if (best === undefined) return null;
      left = fitting;
      const index = match(mediaTime - best);
      return index === null ? null : frameIndex(index);
    },
    frameNear: (time) => frameIndex(before((Number.isFinite(time) ? time : 0) - (left[0] ?? 0) + slack)),
    middleOf: (index) =>
      mediaSeconds(Math.max(0, (at(index) + at(Math.min(index + 1, lastIndex + 1))) / 2 + (left[0] ?? 0))),
  };
}

/** Offsets to try for a clip: as the demuxer found it where that is known, the file's own clock, a clock from zero. */
export function likelyOffsets(table: FrameTable, found: number | null): number[] {
  const first = secondsOf(table)[0] ?? 0;
  return [...new Set([...(found === null ? [] : [found]), 0, -first])];
}
