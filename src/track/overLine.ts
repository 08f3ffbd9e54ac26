import type { GroundPoint } from '../course/points.ts';
import type { Quantity } from '../time/quantity.ts';
import { z95 } from './bands.ts';
import type { Drawn } from './draws.ts';
import {
  deviation,
  mean,
  middleOf,
  nearestOn,
  piecesOf,
  wayLength,
  type Piece,
  type Ways,
} from './figures.ts';

/** What a stretch was longer than the line that was wanted there. */
export interface OverLine {
  /** Metres; negative where she went a shorter way. */
  readonly metres: Quantity;
  /** Seconds that the longer way took her, at the speed that she had on this stretch. */
  readonly seconds: Quantity;
}

/** Nearer to an end of the wanted line than so much, metres, and it says nothing of the way beyond. */
const end = 1e-6;

/**
 * How much longer her way was than the wanted line, between the points of it that lie beside where she began and where she ended:
 * from each of the ways that her marks leave open, so that what moves both alike does not count. The wanted line leads
 * straight along weave poles, so that her swings between them (poles.ts) do not count either: they belong to the obstacle.
 * @param from seconds of the run; `to` likewise
 * @param wanted the part of the wanted line that belongs to the stretch (wantedParts)
 * @param time what the stretch took
 * @returns null where her line or the wanted one does not have all of the stretch
 */
export function overLine(
  { line, drawn }: Ways,
  from: number,
  to: number,
  wanted: readonly GroundPoint[],
  time: Quantity,
): OverLine | null {
  if (!(to > from) || from < line.from || to > line.to || drawn.length === 0) return null;
  const pieces = piecesOf(line, from, to);
  const [first, last] = [pieces[0], pieces.at(-1)];
  if (!first || !last) return null;
  const begins = placeOf(line.times, first, from);
  const ends = placeOf(line.times, last, to);
  const long = wayOf(wanted);
  const wantedOf = (way: Drawn): number | null => {
    const [a, b] = [nearestOn(wanted, begins(way)), nearestOn(wanted, ends(way))];
    return a && b && a.along > end && b.along < long - end ? b.along - a.along : null;
  };
  const [seen, unseen] = [pieces.filter((p) => !p.gap), pieces.filter((p) => p.gap)];
  const straightest = wayLength(unseen, middleOf(line));
  const found = drawn.flatMap((way) => {
    const of = wantedOf(way);
    return of === null ? [] : [{ seen: wayLength(seen, way), whole: wayLength(pieces, way), of }];
  });
  // A few ways that end beside the wanted line's ends say that she nearly did.
  if (found.length < 0.9 * drawn.length) return null;
  const wandering = mean(found.map((f) => f.whole - f.seen));
  const length = mean(found.map((f) => f.seen)) + straightest;
  const metres: Quantity = {
    value: length - mean(found.map((f) => f.of)),
    plusMinus: z95 * deviation(found.map((f) => f.whole - f.of)) + Math.abs(wandering - straightest),
    unit: 'm',
  };
  if (!(length > 0)) return null;
  // t·m/L: metres and length come from the same ways; what of the time is not known adds to it.
  const { value: m, plusMinus } = metres;
  const seconds: Quantity = {
    value: (time.value * m) / length,
    plusMinus: (time.value * plusMinus) / length + (Math.abs(m) * time.plusMinus) / length,
    unit: 's',
  };
  return { metres, seconds };
}

/** Where a way is at a moment within a piece of it. */
function placeOf(times: readonly number[], { i }: Piece, at: number): (way: Drawn) => GroundPoint {
  const [t, u] = [times[i] ?? at, times[i + 1] ?? at];
  const share = u > t ? (at - t) / (u - t) : 0;
  return (way) => {
    const value = (row: number): number =>
      (1 - share) * (way[4 * i + row] ?? 0) + share * (way[4 * (i + 1) + row] ?? 0);
    return { x: value(0), y: value(1) };
  };
}

const wayOf = (line: readonly GroundPoint[]): number =>
  line.slice(1).reduce((sum, p, i) => sum + Math.hypot(p.x - (line[i] ?? p).x, p.y - (line[i] ?? p).y), 0);
