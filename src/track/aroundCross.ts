import type { CrossAnalysis } from '../review/analysis.ts';
import { middle } from '../time/bracket.ts';
import type { Quantity } from '../time/quantity.ts';
import { z95 } from './bands.ts';
import { offLine } from './figures.ts';
import { apartAt, toldCrossed, type Pair, type PathCrossed } from './pairs.ts';
import type { GroundReading } from './readings.ts';
import type { RealLine } from './realLine.ts';
import { everywhere, unseenAt, whereAt, type Whereabouts } from './whereAt.ts';

/** A foot of the handler on the ground, and the way she was going then. */
export interface Footfall {
  readonly at: number;
  readonly foot: 'left' | 'right';
  readonly x: number;
  readonly y: number;
  /** Degrees, counter-clockwise from +x; null where she stands, or was not marked about then. */
  readonly heading: number | null;
}

/** The room that the handler left the dog. */
export interface GapLeft {
  /**
   * `least`: the least to the dog's way, which she did not cross. `before`: to the dog's way when the dog came to where
   * the handler had crossed it. `behind`: from the handler to the dog when the handler crossed behind her.
   */
  readonly as: 'least' | 'before' | 'behind';
  readonly at: number;
  readonly metres: Quantity;
}

/** A time of the run, seconds. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The dog's way so long before and after counts, seconds: what she ran at another time is another part of the course. */
const about = 2;
/** Between two looks, seconds. */
const look = 0.05;
/** Slower than this she stands, m/s. */
const standing = 0.5;

/** Seconds of the two ways that are shown before the first and after the last moment of a cross, and that belong to it. */
export const around = 0.6;

/** From the first moment of a cross that is marked to the last; null where fewer than two are. */
export function spanOf({
  cues,
  parts,
  deadline,
}: Pick<CrossAnalysis, 'cues' | 'parts' | 'deadline'>): Span | null {
  const marked = [...cues.map((c) => c.begins), ...Object.values(parts), deadline].flatMap((m) =>
    m ? [middle(m.bracket)] : [],
  );
  return marked.length > 1 ? { from: Math.min(...marked), to: Math.max(...marked) } : null;
}

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
 * The room that the handler left at a cross. Where she crossed the dog's way it is that at the moment of the other: what
 * she leaves while she stands on it is nought, and says nothing.
 * @param crossed where she crossed it about then; null where she did not
 * @returns null where one of the two was not marked then, or who came first cannot be told
 */
export function gapLeft(pair: Pair, span: Span, crossed: PathCrossed | null): GapLeft | null {
  if (!crossed) return leastGap(pair, span);
  if (!toldCrossed(crossed) || crossed.first === 'cannotTell') return null;
  if (crossed.first === 'handler') {
    const at = crossed.dogAt.value;
    const metres = crossed.unseen ? null : gapAt(pair, at, wayAbout(pair.dog, span))?.metres;
    return metres ? { as: 'before', at, metres } : null;
  }
  const at = crossed.handlerAt.value;
  const metres = unseenAt(pair.dog, at) ? null : apartAt(pair, at);
  return metres && { as: 'behind', at, metres };
}

/** The least gap over a time; null where the dog was not marked where it would be. */
function leastGap(pair: Pair, { from, to }: Span): GapLeft | null {
  const way = wayAbout(pair.dog, { from, to });
  let best: ReturnType<typeof gapAt> = null;
  let at = from;
  for (let t = Math.max(from, pair.handler.from); t <= Math.min(to, pair.handler.to); t += look) {
    const gap = gapAt(pair, t, way);
    if (!gap || (best && gap.metres.value >= best.metres.value)) continue;
    best = gap;
    at = t;
  }
  return best?.dogSeen ? { as: 'least', at, metres: best.metres } : null;
}

/** A stored moment of the dog's line. */
type Moment = Whereabouts & { readonly at: number };

/** The stored moments of a dog's way about a time: what she ran at another time is another part of the course. */
export function wayAbout(dog: RealLine, { from, to }: Span): readonly Moment[] {
  return everywhere(dog).flatMap((p, i) => {
    const at = dog.times[i] ?? NaN;
    return at >= from - about && at <= to + about ? [{ ...p, at }] : [];
  });
}

/**
 * How far the handler is from the way at a moment; null where she was not marked then. The two errors are taken as if
 * they did not know of each other, which for lines of one fit makes the band wider than it need be.
 */
export function gapAt(
  { dog, handler }: Pair,
  at: number,
  way: readonly Moment[],
): { readonly metres: Quantity; readonly dogSeen: boolean } | null {
  const off = unseenAt(handler, at) ? null : offLine(handler, at, way);
  const there = off && momentAlong(way, off.along);
  if (!off || !there) return null;
  const [xx, xy, yy] = [there.cov.v[0] ?? 0, there.cov.v[1] ?? 0, there.cov.v[5] ?? 0];
  const longest = Math.max(0, (xx + yy) / 2 + Math.hypot((xx - yy) / 2, xy));
  const plusMinus = Math.hypot(off.plusMinus, z95 * Math.sqrt(longest));
  return {
    metres: { value: Math.abs(off.value), plusMinus, unit: 'm' },
    dogSeen: unseenAt(dog, there.at) === null,
  };
}

/** The stored moment at so many metres along a way. */
function momentAlong(way: readonly Moment[], along: number): Moment | null {
  let run = 0;
  for (const [i, p] of way.entries()) {
    const next = way[i + 1];
    if (!next) return p;
    run += Math.hypot(next.x - p.x, next.y - p.y);
    if (run >= along) return p;
  }
  return null;
}
