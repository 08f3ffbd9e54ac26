import { captureSeconds, type CaptureSeconds, type MediaSeconds } from './units.ts';

/**
 * How fast the camera's clock really ran, piece by piece: from media time `from` on, one second of the file is
 * `speed` seconds at the camera. 1 is real time; a 240 fps clip stored at 30 fps has 0.125. Phones ramp within a
 * clip, hence the list.
 */
export interface SpeedPiece {
  readonly from: number;
  readonly speed: number;
}

/** Pieces in order of `from`; before the first piece its own speed holds. An empty list is real time. */
export type SpeedMap = readonly SpeedPiece[];

/** Throws a RangeError unless pieces are finite, in strictly rising order, with speeds above zero. */
export function checkSpeedMap(map: SpeedMap): SpeedMap {
  map.forEach((piece, i) => {
    const before = map[i - 1];
    if (!Number.isFinite(piece.from) || !Number.isFinite(piece.speed) || piece.speed <= 0) {
      throw new RangeError(
        `Piece ${i + 1} of the speed map is not usable: start ${piece.from}, speed ${piece.speed}`,
      );
    }
    if (before && before.from >= piece.from) {
      throw new RangeError(`Piece ${i + 1} of the speed map starts before piece ${i} ends`);
    }
  });
  return map;
}

/** Real seconds at the camera for a media time. Capture time is 0 at media time 0 and continuous across pieces. */
export function toCapture(map: SpeedMap, media: MediaSeconds): CaptureSeconds {
  return captureSeconds(captureAt(map, media) - captureAt(map, 0));
}

function captureAt(map: SpeedMap, media: number): number {
  const first = map[0];
  if (!first) return media;
  let total = 0;
  let from = first.from;
  let speed = first.speed;
  for (const piece of map.slice(1)) {
    if (media <= piece.from) break;
    total += (piece.from - from) * speed;
    from = piece.from;
    speed = piece.speed;
  }
  return total + (media - from) * speed;
}
