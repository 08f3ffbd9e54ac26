import { runTimeAt, type ClipClock } from './bracket.ts';
import type { SpeedMap, SpeedPiece } from './captureClock.ts';
import { pieceAt } from './captureClock.ts';
import type { Pts } from './units.ts';

/** A speed as the coach says it, with how far it may be off (0: exact). Capture seconds per media second. */
export interface SaidSpeed {
  readonly speed: number;
  readonly plusMinus: number;
}

/** Life, as said: unlike an empty map, which nobody has said anything about. */
export const life: SaidSpeed = { speed: 1, plusMinus: 0 };

/** Two media times closer than this are one place: far less than any frame. */
const slack = 1e-6;

const pieceOf = (from: number, { speed, plusMinus }: SaidSpeed): SpeedPiece =>
  plusMinus > 0 ? { from, speed, plusMinus } : { from, speed };

const alike = (a: SpeedPiece, b: SpeedPiece): boolean =>
  a.speed === b.speed && (a.plusMinus ?? 0) === (b.plusMinus ?? 0);

/** The whole clip at one speed. `first` is the media time of its first frame. */
export function wholeClip(first: number, said: SaidSpeed): SpeedMap {
  return [pieceOf(first, said)];
}

/** The map with another speed from media time `at` up to the next change, or to the end where there is none. */
export function speedFrom(map: SpeedMap, first: number, at: number, said: SaidSpeed): SpeedMap {
  const there = map.length > 0 ? map : wholeClip(first, life);
  const place = Math.max(at, first);
  const early = there[0];
  // What holds before the first piece is the speed of the first piece: it begins where the clip does.
  const base = early && early.from > first ? [{ ...early, from: first }, ...there.slice(1)] : there;
  const kept = base.filter((piece) => Math.abs(piece.from - place) > slack);
  return joined([...kept, pieceOf(place, said)].sort((a, b) => a.from - b.from));
}

/** The map without the last change at or before `at`; the stretch before it goes on. Null where there is none. */
export function withoutChange(map: SpeedMap, at: number): SpeedMap | null {
  const change = map.findLastIndex((piece) => piece.from <= at + slack);
  return change < 1 ? null : joined(map.filter((_, i) => i !== change));
}

/** The speed of the stretch at `at`, changed; its ends stay. */
export function speedOfStretch(map: SpeedMap, first: number, at: number, said: SaidSpeed): SpeedMap {
  const piece = pieceAt(map, at);
  if (!piece) return wholeClip(first, said);
  return joined(map.map((p) => (p === piece ? pieceOf(p.from, said) : p)));
}

/**
 * The offset with which `anchor` keeps its run time under another speed map, so that what was lined up there stays. Run
 * seconds.
 */
export function offsetKeeping(clock: ClipClock, speed: SpeedMap, anchor: Pts): number {
  const changed = { ...clock, speed, offset: 0 };
  const offset = runTimeAt(clock, anchor) - runTimeAt(changed, anchor);
  return Math.abs(offset) < 1e-12 ? 0 : offset;
}

function joined(map: SpeedMap): SpeedMap {
  return map.filter((piece, i) => {
    const before = map[i - 1];
    return !before || !alike(before, piece);
  });
}
