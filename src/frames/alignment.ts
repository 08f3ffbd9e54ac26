import type { FrameTable } from '../time/frameTable.ts';

/** How the packets a demuxer lists belong to the frames of a table. */
export interface Alignment {
  /** Seconds to add to a time of the table to get the demuxer's. */
  readonly offset: number;
  /** Frame index of each packet, by the packet's place in presentation order; -1 where the table hides it. */
  readonly frameOfRank: Int32Array;
  /** Place in presentation order of each frame's packet. */
  readonly rankOfFrame: Int32Array;
}

/** Beyond this many hidden packets in front, a file is not one that a camera wrote. */
const mostCandidates = 512;

/**
 * Ties the times that a demuxer lists to a frame table, frame by frame. Containers start at different zeros, edit
 * lists hide frames, Matroska rounds to milliseconds; what never changes is the distance between frames.
 * @param table every frame that is shown, with its exact time
 * @param times seconds of every packet in presentation order, not falling
 * @param tick the demuxer's own rounding, seconds
 * @returns the tie under which every frame has a packet of its own and all differences agree within half a tick of
 * the coarser of the two clocks; null where there is none, or where several fit and nothing tells them apart.
 */
export function align(table: FrameTable, times: Float64Array, tick: number): Alignment | null {
  const frames = secondsOf(table);
  const extra = times.length - frames.length;
  const first = frames[0];
  if (extra < 0 || first === undefined) return null;
  const coarser = Math.max(table.timeBase.num / table.timeBase.den, tick);
  const leading = Math.min(extra, mostCandidates);
  // Table and demuxer read the same file in the common case: then their clocks agree as they are.
  const asIs = extra > 0 ? tie(frames, times, 0, coarser) : null;
  if (asIs && Math.abs(asIs.offset) <= coarser) return asIs;
  const fits: Alignment[] = [];
  for (let hidden = 0; hidden <= leading; hidden++) {
    const fit = tie(frames, times, (times[hidden] ?? 0) - first, coarser);
    if (fit && fits.every((f) => f.rankOfFrame[0] !== fit.rankOfFrame[0])) fits.push(fit);
  }
  if (fits.length <= 1) return fits[0] ?? null;
  // What an edit list hides in front has a time before zero (ISO/IEC 14496-12, 8.6.6).
  const visible = fits.filter((f) => firstVisible(times, coarser) === f.rankOfFrame[0]);
  return visible.length === 1 ? (visible[0] ?? null) : null;
}

/** Seconds of every frame, in one typed array. */
export function secondsOf(table: FrameTable): Float64Array {
  const { num, den } = table.timeBase;
  return Float64Array.from(table.pts, (at) => (at * num) / den);
}

function firstVisible(times: Float64Array, coarser: number): number {
  return times.findIndex((t) => t >= -coarser / 2);
}

/** Gives each frame the packet nearest to its time plus `offset`; null where one is missing or they disagree. */
function tie(frames: Float64Array, times: Float64Array, offset: number, coarser: number): Alignment | null {
  // Doubles carry 15 digits; a billionth of a second is far below any tick in use.
  const slack = 1e-9;
  const reach = coarser + slack;
  const frameOfRank = new Int32Array(times.length).fill(-1);
  const rankOfFrame = new Int32Array(frames.length);
  let rank = 0;
  let least = Infinity;
  let most = -Infinity;
  for (let frame = 0; frame < frames.length; frame++) {
    const wanted = (frames[frame] ?? NaN) + offset;
    while (rank < times.length && at(times, rank) < wanted - reach) rank++;
    while (rank + 1 < times.length && distance(times, rank + 1, wanted) < distance(times, rank, wanted))
      rank++;
    if (!(distance(times, rank, wanted) <= reach)) return null;
    // Two packets with one time cannot be told apart by time.
    if (rank + 1 < times.length && at(times, rank + 1) - at(times, rank) <= slack) return null;
    const difference = at(times, rank) - wanted;
    least = Math.min(least, difference);
    most = Math.max(most, difference);
    frameOfRank[rank] = frame;
    rankOfFrame[frame] = rank;
    rank++;
  }
  if (most - least > coarser + slack) return null;
  return { offset: offset + (least + most) / 2, frameOfRank, rankOfFrame };
}

function at(times: Float64Array, rank: number): number {
  return times[rank] ?? Infinity;
}

function distance(times: Float64Array, rank: number, wanted: number): number {
  return Math.abs(at(times, rank) - wanted);
}
