import type { FrameTable } from '../time/frameTable.ts';

/** How a demuxer's clock lies to that of a frame table. */
export interface Alignment {
  /** Seconds to add to a time of the table to get the demuxer's. */
  readonly offset: number;
  /** How far a packet may lie from its frame, seconds: half a tick of the coarser of the two clocks. */
  readonly reach: number;
}

/** Beyond this many hidden packets in front, a file is not one that a camera wrote. */
const mostCandidates = 512;
/** Doubles carry 15 digits; a billionth of a second is far below any tick in use. */
const slack = 1e-9;

/** Seconds of every frame, in one typed array. */
export function secondsOf(table: FrameTable): Float64Array {
  const { num, den } = table.timeBase;
  return Float64Array.from(table.pts, (at) => (at * num) / den);
}

/** The coarser of two ticks: that of the table and that of the demuxer, seconds. */
export function coarserTick(table: FrameTable, tick: number): number {
  return Math.max(table.timeBase.num / table.timeBase.den, tick);
}

/**
 * Ties the times that a demuxer lists to a frame table. Containers start at different zeros, edit lists hide frames,
 * Matroska rounds to milliseconds; what never changes is the distance between frames.
 * @param starts seconds of every frame of the table
 * @param times seconds of every packet of the clip in presentation order, not falling
 * @param coarser the coarser of the two clocks' ticks, seconds
 * @returns the tie under which every frame has a packet of its own and all differences agree within half a tick;
 * null where there is none, or where several fit and nothing tells them apart.
 */
export function align(starts: Float64Array, times: Float64Array, coarser: number): Alignment | null {
  const extra = times.length - starts.length;
  const first = starts[0];
  if (extra < 0 || first === undefined) return null;
  // Table and demuxer read the same file in the common case: then their clocks agree as they are.
  const asIs = extra > 0 ? tie(starts, times, 0, coarser) : null;
  if (asIs && Math.abs(asIs.offset) <= coarser) return asIs;
  const fits: Tie[] = [];
  for (let hidden = 0; hidden <= Math.min(extra, mostCandidates); hidden++) {
    const fit = tie(starts, times, at(times, hidden) - first, coarser);
    if (fit && fits.every((f) => f.rank !== fit.rank)) fits.push(fit);
  }
  if (fits.length <= 1) return fits[0] ?? null;
  // What an edit list hides in front has a time before zero (ISO/IEC 14496-12, 8.6.6).
  const visible = times.findIndex((t) => t >= -coarser / 2);
  const behind = fits.filter((f) => visible > 0 && f.rank === visible);
  return behind.length === 1 ? (behind[0] ?? null) : null;
}

/**
 * The tie of a clip of which only the beginning was listed, where it is beyond doubt: both clocks agree as they
 * are, or no packet is hidden in front. The end of the clip is still to be compared in the second case.
 * @param head seconds of the first packets in presentation order, only as far as no later packet can come between
 */
export function alignHead(
  starts: Float64Array,
  head: Float64Array,
  coarser: number,
): (Alignment & { readonly asIs: boolean }) | null {
  const end = at(head, head.length - 1);
  const compare = (offset: number): Tie | null => {
    const count = starts.findIndex((t) => t + offset > end + coarser / 2);
    const some = starts.subarray(0, count < 0 ? starts.length : count);
    return some.length < Math.min(8, starts.length) ? null : tie(some, head, offset, coarser);
  };
  const asIs = compare(0);
  // What is hidden in front lies before zero; otherwise the clip has merely been moved, by whole frames at that.
  const hiddenBefore = asIs !== null && (asIs.rank === 0 || at(head, asIs.rank - 1) < -coarser / 2);
  if (asIs && hiddenBefore && Math.abs(asIs.offset) <= slack) return { ...asIs, asIs: true };
  const shifted = compare(at(head, 0) - at(starts, 0));
  return shifted && shifted.rank === 0 && shifted.unused === 0 ? { ...shifted, asIs: false } : null;
}

/**
 * The frame whose packet has this time, or -1 where no frame of the table does: such a packet is hidden. Never the
 * nearest one: a packet that lies further away than rounding explains belongs to no frame.
 */
export function frameOfTime(starts: Float64Array, tied: Alignment, time: number): number {
  const wanted = time - tied.offset;
  const low = frameBefore(starts, wanted);
  const near = at(starts, low + 1) - wanted < wanted - at(starts, low) ? low + 1 : low;
  return Math.abs(at(starts, near) - wanted) <= tied.reach ? near : -1;
}

/** The last frame that starts at or before `seconds`; the first where none does. */
export function frameBefore(starts: Float64Array, seconds: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (at(starts, middle) <= seconds) low = middle;
    else high = middle - 1;
  }
  return low;
}

interface Tie extends Alignment {
  /** Place of the first frame's packet, and packets between the first and the last that belong to no frame. */
  readonly rank: number;
  readonly unused: number;
}

/** Gives each frame the packet nearest to its time plus `offset`; null where one is missing or they disagree. */
function tie(starts: Float64Array, times: Float64Array, offset: number, coarser: number): Tie | null {
  const within = coarser + slack;
  let rank = 0;
  let first = -1;
  let least = Infinity;
  let most = -Infinity;
  for (const start of starts) {
    const wanted = start + offset;
    while (rank < times.length && at(times, rank) < wanted - within) rank++;
    while (Math.abs(at(times, rank + 1) - wanted) < Math.abs(at(times, rank) - wanted)) rank++;
    const difference = at(times, rank) - wanted;
    if (!(Math.abs(difference) <= within)) return null;
    // Two packets with one time cannot be told apart by time.
    if (at(times, rank + 1) - at(times, rank) <= slack) return null;
    least = Math.min(least, difference);
    most = Math.max(most, difference);
    if (first < 0) first = rank;
    rank++;
  }
  if (most - least > coarser + slack) return null;
  return {
    offset: offset + (least + most) / 2,
    reach: coarser / 2 + 2 * slack,
    rank: first,
    unused: rank - first - starts.length,
  };
}

function at(list: Float64Array, place: number): number {
  return list[place] ?? Infinity;
}
