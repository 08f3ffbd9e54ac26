import type { GroundPoint } from '../course/points.ts';
import type { Quantity } from '../time/quantity.ts';
import { banded, placeBand, varianceAlong, z95, type PlaceBand } from './bands.ts';
import { drawnWays, type Drawn } from './draws.ts';
import { entry } from './matrices.ts';
import type { Flight } from './motion.ts';
import { swing } from './poles.ts';
import type { RealLine } from './realLine.ts';
import { whereAt, type Whereabouts } from './whereAt.ts';

/** A place of the line and how well it is known. */
export interface Place extends GroundPoint {
  readonly band: PlaceBand;
}

/** The place at a moment that is itself off by `unsure` seconds (one standard deviation); null outside of the line. */
export function placeAt(line: RealLine, at: number, unsure = 0): Place | null {
  const here = whereAt(line, at);
  if (!here) return null;
  const late = unsure * unsure;
  const cov = { ...here.cov, v: here.cov.v.slice() };
  cov.v[0] = entry(here.cov, 0, 0) + late * here.vx * here.vx;
  cov.v[1] = entry(here.cov, 0, 1) + late * here.vx * here.vy;
  cov.v[5] = entry(here.cov, 1, 1) + late * here.vy * here.vy;
  return { x: here.x, y: here.y, band: placeBand(cov) };
}

/** Speed along the line, m/s. */
export function speedAt(line: RealLine, at: number): Quantity | null {
  const here = whereAt(line, at);
  if (!here) return null;
  const speed = Math.hypot(here.vx, here.vy);
  if (speed < 1e-9) return banded(0, entry(here.cov, 2, 2) + entry(here.cov, 3, 3), 'm/s');
  return banded(speed, varianceAlong([0, 0, here.vx / speed, here.vy / speed], here.cov), 'm/s');
}

/** Take-off and landing of a flight; null where it lies outside of the line. */
export function endsOf(line: RealLine, flight: Flight): { takeOff: Place; landing: Place } | null {
  const takeOff = placeAt(line, flight.from, flight.unsure);
  const landing = placeAt(line, flight.to, flight.unsure);
  return takeOff && landing && { takeOff, landing };
}

/** How far a place of a line lies off another line: to the left of it where positive. */
export interface OffLine extends Quantity {
  /** Metres along the other line up to the point next to this one. */
  readonly along: number;
}

/** Distance from another line (the wanted one) at a moment, with its band; null outside, or where that is no line. */
export function offLine(line: RealLine, at: number, other: readonly GroundPoint[]): OffLine | null {
  const here = whereAt(line, at);
  const near = here && nearestOn(other, here);
  if (!near) return null;
  const { left, normal, along } = near;
  return { ...banded(left, varianceAlong([normal.x, normal.y], here.cov), 'm'), along };
}

/** Where a line comes nearest to a point: metres to the left of it, and along it; null for no line. */
export function nearestOn(line: readonly GroundPoint[], p: GroundPoint) {
  let best: { left: number; normal: GroundPoint; along: number; far: number } | null = null;
  let run = 0;
  line.slice(1).forEach((b, i) => {
    const a = line[i] ?? b;
    const long = Math.hypot(b.x - a.x, b.y - a.y);
    if (!(long > 0)) return;
    const [ux, uy] = [(b.x - a.x) / long, (b.y - a.y) / long];
    const t = Math.max(0, Math.min(long, (p.x - a.x) * ux + (p.y - a.y) * uy));
    const [dx, dy] = [p.x - a.x - t * ux, p.y - a.y - t * uy];
    const far = Math.hypot(dx, dy);
    if (!best || far < best.far) {
      const left = ux * dy - uy * dx >= 0 ? 1 : -1;
      // On the line itself, or straight beside it, the normal is the line's own; past an end it points to the end.
      const normal = far > 1e-9 ? { x: (left * dx) / far, y: (left * dy) / far } : { x: -uy, y: ux };
      best = { left: left * far, normal, along: run + t, far };
    }
    run += long;
  });
  return best as { left: number; normal: GroundPoint; along: number } | null;
}

/**
 * How sharply the line turns about a moment, 1/m, to the left where positive: the turn of its direction from half a
 * window before to half a window after, over the way between. A moment by itself has no curvature that could be seen.
 */
export function curvatureAt(
  ways: Ways,
  at: number,
  window = 0.3,
): { value: number; plusMinus: number } | null {
  const { line, drawn } = ways;
  const [from, to] = [Math.max(line.from, at - window / 2), Math.min(line.to, at + window / 2)];
  if (!(to - from > window / 4)) return null;
  const best = bendOf(whereAt(line, from), whereAt(line, to), to - from);
  if (best === null) return null;
  const [i, j] = [nearestMoment(line, from), nearestMoment(line, to)];
  if (i === j) return null;
  const seconds = (line.times[j] ?? 0) - (line.times[i] ?? 0);
  const spread = deviation(drawn.map((way) => bendOf(stateOf(way, i), stateOf(way, j), seconds) ?? best));
  return { value: best, plusMinus: z95 * spread };
}

type Moving = Pick<Whereabouts, 'x' | 'y' | 'vx' | 'vy'>;

function bendOf(a: Moving | null, b: Moving | null, seconds: number): number | null {
  if (!a || !b) return null;
  const turn = Math.atan2(a.vx * b.vy - a.vy * b.vx, a.vx * b.vx + a.vy * b.vy);
  const way = ((Math.hypot(a.vx, a.vy) + Math.hypot(b.vx, b.vy)) / 2) * seconds;
  return way > 1e-3 ? turn / way : null;
}

/** A line with ways that its readings leave open: what bands of lengths and bends are read from. */
export interface Ways {
  readonly line: RealLine;
  readonly drawn: readonly Drawn[];
}

export const waysOf = (line: RealLine, seed: number, count = 200): Ways => ({
  line,
  drawn: drawnWays(line, count, seed),
});

/**
 * Length of the way between two moments, metres; both are held within the line. The value is the mean of the drawn
 * ways: the smoothed line itself is shorter than any way that a body may have gone, since it leaves out every swerve
 * that lies between two readings. Over a gap it is that of the smoothed line all the same: there the drawn ways wander
 * about as a body might in so much time, which only says how little is known, and the band grows by that. Between weave
 * poles it is that of the smoothed line and of the swings from side to side that no mark shows (poles.ts).
 * @returns null where nothing of the line lies between
 */
export function lengthBetween(ways: Ways, from: number, to: number): Quantity | null {
  const { line, drawn } = ways;
  const [a, b] = [Math.max(from, line.from), Math.min(to, line.to)];
  if (!(b > a) || drawn.length === 0) return null;
  const pieces = piecesOf(line, a, b);
  const unseen = pieces.filter((p) => p.gap);
  const weaving = pieces.filter((p) => p.weave && !p.gap);
  const seen = pieces.filter((p) => !p.gap && !p.weave);
  const smoothed = middleOf(line);
  const [straightest, between] = [wayLength(unseen, smoothed), wayLength(weaving, smoothed)];
  const wandering = unseen.length > 0 ? mean(drawn.map((way) => wayLength(unseen, way))) : 0;
  const spread = z95 * deviation(drawn.map((way) => wayLength(pieces, way)));
  return {
    value: mean(drawn.map((way) => wayLength(seen, way))) + straightest + between * (1 + swing.longer),
    plusMinus: Math.hypot(spread, between * swing.plusMinus) + Math.abs(wandering - straightest),
    unit: 'm',
  };
}

/**
 * Length of all that was marked, without what lies in gaps, metres. A handler stops, stands and goes: where she stood the
 * drawn ways wander about, and where she turned the smoothed line cuts the corner. The truth lies between the two, and
 * the band reaches over both.
 */
export function lengthSeen({ line, drawn }: Ways): Quantity {
  const seen = piecesOf(line, line.from, line.to).filter((p) => !p.gap);
  const lengths = drawn.map((way) => wayLength(seen, way));
  const [wandering, straightest] = [mean(lengths), wayLength(seen, middleOf(line))];
  return {
    value: (wandering + straightest) / 2,
    plusMinus: z95 * deviation(lengths) + Math.abs(wandering - straightest) / 2,
    unit: 'm',
  };
}

/** The way from one stored moment to the next, as far as it counts. */
export interface Piece {
  readonly i: number;
  readonly share: number;
  readonly gap: boolean;
  /** Between weave poles. */
  readonly weave: boolean;
}

/** The pieces of a line between two moments. */
export function piecesOf({ times, gaps, weaves }: RealLine, from: number, to: number): Piece[] {
  return times.slice(1).flatMap((u, i): Piece[] => {
    const t = times[i] ?? u;
    const share = (Math.min(u, to) - Math.max(t, from)) / (u - t);
    if (!(share > 0)) return [];
    const half = (t + u) / 2;
    // Gaps begin and end at readings, which are stored moments.
    const gap = gaps.some((g) => g.from < u && g.to > t);
    return [{ i, share, gap, weave: weaves.some((w) => half > w.from && half < w.to) }];
  });
}

/** The smoothed line as if it had been drawn. */
export const middleOf = ({ smoothed: { states } }: RealLine): Drawn =>
  Float64Array.from(states.flatMap((s) => [0, 1, 2, 3].map((row) => entry(s.mean, row, 0))));

/** Metres of a drawn way over some pieces. */
export function wayLength(pieces: readonly Piece[], way: Drawn): number {
  let sum = 0;
  for (const { i, share } of pieces) {
    const k = 4 * i;
    sum += share * Math.hypot((way[k + 4] ?? 0) - (way[k] ?? 0), (way[k + 5] ?? 0) - (way[k + 1] ?? 0));
  }
  return sum;
}

const stateOf = (way: Drawn, i: number): Moving => ({
  x: way[4 * i] ?? 0,
  y: way[4 * i + 1] ?? 0,
  vx: way[4 * i + 2] ?? 0,
  vy: way[4 * i + 3] ?? 0,
});

function nearestMoment({ times }: RealLine, at: number): number {
  let best = 0;
  times.forEach((t, i) => {
    if (Math.abs(t - at) < Math.abs((times[best] ?? Infinity) - at)) best = i;
  });
  return best;
}

export const mean = (list: readonly number[]): number => list.reduce((sum, v) => sum + v, 0) / list.length;

/** Standard deviation of a sample. */
export function deviation(list: readonly number[]): number {
  const middle = mean(list);
  return Math.sqrt(list.reduce((sum, v) => sum + (v - middle) ** 2, 0) / Math.max(1, list.length - 1));
}
