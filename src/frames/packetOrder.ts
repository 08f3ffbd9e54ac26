import type { Alignment } from './alignment.ts';

/** What a demuxer lists about a packet, in decode order. */
export interface PacketFacts {
  /** Presentation times, seconds. */
  readonly times: Float64Array;
  /** 1 where decoding can begin. */
  readonly keys: Uint8Array;
}

/** Places in presentation order (ranks) of packets listed in decode order. */
export function ranksOf(times: Float64Array): { rankOf: Int32Array; sorted: Float64Array } {
  const order = Int32Array.from(times, (_, place) => place);
  order.sort((a, b) => (times[a] ?? 0) - (times[b] ?? 0) || a - b);
  const rankOf = new Int32Array(times.length);
  const sorted = new Float64Array(times.length);
  order.forEach((place, rank) => {
    rankOf[place] = rank;
    sorted[rank] = times[place] ?? 0;
  });
  return { rankOf, sorted };
}

/** Where each frame stands in the decoder's order, and where a decoder must begin to reach it. */
export interface DecodeOrder {
  readonly packets: number;
  /** Frame index of a packet by its place in decode order; -1 for hidden ones. */
  frameAt(place: number): number;
  /** Place in decode order of a frame's packet. */
  placeOf(frame: number): number;
  /** Place of the key packet from which this frame can be decoded. */
  startFor(frame: number): number;
  /** First frame that comes out of a decoder started for this frame. */
  firstFrom(frame: number): number;
  /** Takes back a key mark that the bitstream did not honour. */
  notAKey(place: number): void;
}

/** Builds the decode order of a clip from its packets and their tie to the frame table. */
export function decodeOrder(facts: PacketFacts, rankOf: Int32Array, tie: Alignment): DecodeOrder {
  const packets = facts.times.length;
  const placeOfRank = new Int32Array(packets);
  rankOf.forEach((rank, place) => (placeOfRank[rank] = place));
  const frameOfPlace = Int32Array.from(rankOf, (rank) => tie.frameOfRank[rank] ?? -1);
  // A frame is reachable from the last key that is shown no later: a picture shown before its key in decode order
  // leans on the group before.
  let keyPlaces: number[] = [];
  for (let place = 0; place < packets; place++) if (facts.keys[place] === 1) keyPlaces.push(place);
  if (keyPlaces.length === 0) keyPlaces = [0];
  const rank = (place: number): number => rankOf[place] ?? 0;

  const startFor = (frame: number): number => {
    const wanted = tie.rankOfFrame[frame] ?? 0;
    let low = 0;
    let high = keyPlaces.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (rank(keyPlaces[middle] ?? 0) <= wanted) low = middle;
      else high = middle - 1;
    }
    return keyPlaces[low] ?? 0;
  };

  return {
    packets,
    frameAt: (place) => frameOfPlace[place] ?? -1,
    placeOf: (frame) => placeOfRank[tie.rankOfFrame[frame] ?? 0] ?? 0,
    startFor,
    firstFrom(frame) {
      for (let r = rank(startFor(frame)); r < packets; r++) {
        const shown = tie.frameOfRank[r] ?? -1;
        if (shown >= 0) return Math.min(shown, frame);
      }
      return frame;
    },
    notAKey(place) {
      if (keyPlaces.length > 1) keyPlaces = keyPlaces.filter((p) => p !== place);
    },
  };
}
