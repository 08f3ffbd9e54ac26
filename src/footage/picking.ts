import { ptsOf, type FrameTable } from '../time/frameTable.ts';
import type { FrameIndex } from '../time/units.ts';
import type { ClipProbe } from './clipProbe.ts';

/** Media time of a frame, seconds. */
export const secondsOf = (table: FrameTable, index: number): number =>
  (ptsOf(table, index as FrameIndex) * table.timeBase.num) / table.timeBase.den;

/**
 * A seek to well before the first frame wanted, on the file's own clock. Demuxers with an index land on the key frame
 * before; a second covers decoding order. A transport stream has no index: several groups of pictures must lie between.
 */
export function seek(facts: ClipProbe, table: FrameTable, first: number): string[] {
  const back = facts.container === 'mpegts' ? 15 : 1;
  const to = secondsOf(table, first) - back;
  if (to <= secondsOf(table, 0)) return ['-copyts'];
  return ['-copyts', '-noaccurate_seek', '-seek_timestamp', '1', '-ss', to.toFixed(6)];
}

/** A frame of two half-pictures is completed from its neighbours, so that must come before any are picked. */
export function deinterlacedFirst(facts: ClipProbe, picking: readonly string[]): string[] {
  const { interlaced, timeBase } = facts.picture;
  // yadif halves the tick; the times to pick by are in the stream's own.
  return interlaced
    ? ['yadif=mode=send_frame:deint=interlaced', `settb=${timeBase.join('/')}`, ...picking]
    : [...picking];
}

/** Whether the frames of a clip are told by their times. Where a container keeps none they are counted from the start. */
export const hasTimes = (facts: ClipProbe): boolean => facts.container !== 'avi';

/** An expression of ffmpeg's that is not 0 from one frame to another, both included. */
export function timeOrPlace(facts: ClipProbe, table: FrameTable, from: number, to: number): string {
  return hasTimes(facts)
    ? `between(pts,${ptsOf(table, from as FrameIndex)},${ptsOf(table, to as FrameIndex)})`
    : `between(n,${from},${to})`;
}

/** A filter of ffmpeg's that ends where this frame does. */
export function untilFrame(facts: ClipProbe, table: FrameTable, last: number): string {
  return hasTimes(facts)
    ? `trim=end_pts=${ptsOf(table, last as FrameIndex) + 1}`
    : `trim=end_frame=${last + 1}`;
}
