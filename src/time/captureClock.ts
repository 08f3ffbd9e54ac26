import { captureSeconds, mediaSeconds, type CaptureSeconds, type MediaSeconds } from './units.ts';

/**
 * How fast the camera's clock really ran, piece by piece: from media time `from` on, one second of the file is
 * `speed` seconds at the camera. 1 is real time; a 240 fps clip stored at 30 fps has 0.125. Phones ramp within a
 * clip, hence the list. `plusMinus` is how far the speed may be off, in the same unit; absent where it is exact.
 */
export interface SpeedPiece {
  readonly from: number;
  readonly speed: number;
  readonly plusMinus?: number | undefined;
}

/** Pieces in order of `from`; before the first piece its own speed holds. An empty list is real time. */
export type SpeedMap = readonly SpeedPiece[];

/** Throws a RangeError unless pieces are finite, in strictly rising order, with speeds above zero for certain. */
export function checkSpeedMap(map: SpeedMap): SpeedMap {
  map.forEach((piece, i) => {
    const before = map[i - 1];
    const { from, speed, plusMinus = 0 } = piece;
    if (!Number.isFinite(from) || !Number.isFinite(speed) || speed <= 0) {
      throw new RangeError(`Piece ${i + 1} of the speed map is not usable: start ${from}, speed ${speed}`);
    }
    if (!(plusMinus >= 0 && plusMinus < speed)) {
      throw new RangeError(
        `Piece ${i + 1} of the speed map is not usable: speed ${speed} plus or minus ${plusMinus}`,
      );
    }
    if (before && before.from >= from) {
      throw new RangeError(`Piece ${i + 1} of the speed map starts before piece ${i} ends`);
    }
  });
  return map;
}

/** The piece that holds at a media time; undefined where the whole clip is real time. */
export function pieceAt(map: SpeedMap, media: number): SpeedPiece | undefined {
  return map.findLast((piece) => piece.from <= media) ?? map[0];
}

/** Capture seconds per media second at a media time. */
export function speedAt(map: SpeedMap, media: number): number {
  return pieceAt(map, media)?.speed ?? 1;
}

/** Real seconds at the camera for a media time. Capture time is 0 at media time 0 and continuous across pieces. */
export function toCapture(map: SpeedMap, media: MediaSeconds): CaptureSeconds {
  return captureSeconds(summed(map, 'speed', media) - summed(map, 'speed', 0));
}

/** The media time at which the camera's clock stood at `capture`: the inverse of toCapture. */
export function toMedia(map: SpeedMap, capture: CaptureSeconds): MediaSeconds {
  const first = map[0];
  if (!first) return mediaSeconds(capture);
  const wanted = capture + summed(map, 'speed', 0);
  let total = 0;
  let piece = first;
  for (const next of map.slice(1)) {
    const length = (next.from - piece.from) * piece.speed;
    if (wanted <= total + length) break;
    total += length;
    piece = next;
  }
  return mediaSeconds(piece.from + (wanted - total) / piece.speed);
}

/**
 * By how much the capture time at `media` may be off because the speeds are not exact, seconds; 0 at media time 0,
 * never falling. Within one clip the error between two instants is at most the difference of their drifts: a wrong
 * speed is wrong for both, and only what lies between them counts.
 */
export function drift(map: SpeedMap, media: MediaSeconds): number {
  if (map.every((piece) => !piece.plusMinus)) return 0;
  return summed(map, 'plusMinus', media) - summed(map, 'plusMinus', 0);
}

/** The sum of a figure of the pieces over media time, from the start of the first piece; 1 (or 0) without pieces. */
function summed(map: SpeedMap, what: 'speed' | 'plusMinus', media: number): number {
  const first = map[0];
  if (!first) return what === 'speed' ? media : 0;
  let total = 0;
  let { from } = first;
  let each = first[what] ?? 0;
  for (const piece of map.slice(1)) {
    if (media <= piece.from) break;
    total += (piece.from - from) * each;
    from = piece.from;
    each = piece[what] ?? 0;
  }
  return total + (media - from) * each;
}
