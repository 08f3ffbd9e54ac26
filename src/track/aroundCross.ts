import type { Quantity } from '../time/quantity.ts';
import { z95 } from './bands.ts';
import { offLine } from './figures.ts';
import type { Pair } from './pairs.ts';
import type { GroundReading } from './readings.ts';
import { everywhere, unseenAt, whereAt } from './whereAt.ts';

/** A foot of the handler on the ground, and the way she was going then. */
export interface Footfall {
  readonly at: number;
  readonly foot: 'left' | 'right';
  readonly x: number;
  readonly y: number;
  /** Degrees, counter-clockwise from +x; null where she stands, or was not marked about then. */
  readonly heading: number | null;
}

/** How near the handler came to the way that the dog took. */
export interface LeastGap {
  readonly at: number;
  readonly metres: Quantity;
}

/** The dog's way so long before and after counts, seconds: what she ran at another time is another part of the course. */
const about = 2;
/** Between two looks, seconds. */
const look = 0.05;
/** Slower than this she stands, m/s. */
const standing = 0.5;

/**
 * The handler's steps about a cross.
 * @param feet marks on either foot where it touches the ground, brought to it
 * @param from seconds of the run; `to` likewise, both included
 */
export function footfallsIn(
  { handler }: Pick<Pair, 'handler'>,
  feet: readonly { readonly foot: Footfall['foot']; readonly reading: GroundReading }[],
  from: number,
  to: number,
): readonly Footfall[] {
  return feet
    .filter(({ reading: { at } }) => at >= from && at <= to)
    .toSorted((a, b) => a.reading.at - b.reading.at)
    .map(({ foot, reading: { at, x, y } }) => {
      const here = unseenAt(handler, at) ? null : whereAt(handler, at);
      const moves = here && Math.hypot(here.vx, here.vy) >= standing;
      return { at, foot, x, y, heading: moves ? (Math.atan2(here.vy, here.vx) * 180) / Math.PI : null };
    });
}

/**
 * The least gap that the handler leaves to the way the dog takes about then: nought where she stands on it. The two errors are
 * taken as if they did not know of each other, which for lines of one fit makes the band wider than it need be.
 * @returns null where one of them was not marked over all of that time
 */
export function leastGap({ dog, handler }: Pair, from: number, to: number): LeastGap | null {
  const way = everywhere(dog).filter((_, i) => {
    const t = dog.times[i] ?? NaN;
    return t >= from - about && t <= to + about;
  });
  if (way.length < 2) return null;
  let best: LeastGap | null = null;
  for (let t = Math.max(from, handler.from); t <= Math.min(to, handler.to); t += look) {
    if (unseenAt(handler, t)) continue;
    const off = offLine(handler, t, way);
    if (!off) continue;
    const metres = Math.abs(off.value);
    if (best && metres >= best.metres.value) continue;
    const dogs = placeSpread(way, off.along);
    best = { at: t, metres: { value: metres, plusMinus: Math.hypot(off.plusMinus, z95 * dogs), unit: 'm' } };
  }
  return best;
}

/** How far the dog's own place may be off there, metres, one standard deviation along its longer axis. */
function placeSpread(way: ReturnType<typeof everywhere>, along: number): number {
  let run = 0;
  for (const [i, p] of way.entries()) {
    const next = way[i + 1];
    if (!next) break;
    run += Math.hypot(next.x - p.x, next.y - p.y);
    if (run < along) continue;
    const [xx, xy, yy] = [p.cov.v[0] ?? 0, p.cov.v[1] ?? 0, p.cov.v[5] ?? 0];
    return Math.sqrt(Math.max(0, (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy)));
  }
  return 0;
}
