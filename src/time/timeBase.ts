import { mediaSeconds, type MediaSeconds, type Pts } from './units.ts';

/** Seconds per tick as an exact fraction, as containers state it. */
export interface TimeBase {
  readonly num: number;
  readonly den: number;
}

/** Makes a time base. Throws a RangeError unless both parts are whole numbers above zero. */
export function timeBase(num: number, den: number): TimeBase {
  if (!Number.isSafeInteger(num) || !Number.isSafeInteger(den) || num <= 0 || den <= 0) {
    throw new RangeError(`${num}/${den} cannot be a time base: two whole numbers above zero are needed`);
  }
  return { num, den };
}

/** Media time of a presentation time. One rounding only: the product is exact below 2^53. */
export function ticksToSeconds(base: TimeBase, at: Pts): MediaSeconds {
  return mediaSeconds((at * base.num) / base.den);
}
