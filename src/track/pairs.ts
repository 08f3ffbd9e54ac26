import type { Quantity } from '../time/quantity.ts';
import { banded, varianceAlong } from './bands.ts';
import { placeAt, type Place } from './figures.ts';
import { carried, plus, zeros, type Mat } from './matrices.ts';
import type { RealLine } from './realLine.ts';
import { everywhere, unseenAt, whereAt, type Whereabouts } from './whereAt.ts';

/** A dog's line and a handler's on one clock. */
export interface Pair {
  readonly dog: RealLine;
  readonly handler: RealLine;
}

/**
 * The variance of a figure that goes with both bodies' states by these slopes. Two lines of one fit are off by the same
 * error: what moves both alike falls out.
 */
function jointVariance(
  { dog, handler }: Pair,
  d: Whereabouts,
  h: Whereabouts,
  byDog: readonly number[],
  byHandler: readonly number[],
): number {
  const own = varianceAlong(byDog, d.own) + varianceAlong(byHandler, h.own);
  if (dog.fit && dog.fit === handler.fit && d.byFit && h.byFit)
    return own + varianceAlong([1], carried(plus(row(byDog, d.byFit), row(byHandler, h.byFit)), dog.fit.cov));
  const fitOf = (line: RealLine, slopes: readonly number[], byFit: Mat | null): number =>
    line.fit && byFit ? varianceAlong([1], carried(row(slopes, byFit), line.fit.cov)) : 0;
  return own + fitOf(dog, byDog, d.byFit) + fitOf(handler, byHandler, h.byFit);
}

function row(slopes: readonly number[], byFit: Mat): Mat {
  const m = zeros(1, byFit.cols);
  for (let k = 0; k < byFit.cols; k++)
    slopes.forEach((s, i) => (m.v[k] = (m.v[k] ?? 0) + s * (byFit.v[i * byFit.cols + k] ?? 0)));
  return m;
}

/** Metres from dog to handler at a moment; null where one of them is not on the line then. */
export function apartAt(pair: Pair, at: number): Quantity | null {
  const [d, h] = [whereAt(pair.dog, at), whereAt(pair.handler, at)];
  if (!d || !h) return null;
  const [dx, dy] = [h.x - d.x, h.y - d.y];
  const far = Math.hypot(dx, dy);
  // Where they meet the way between them has no direction: any counts.
  const [ux, uy] = far > 1e-6 ? [dx / far, dy / far] : [Math.SQRT1_2, Math.SQRT1_2];
  return banded(far, jointVariance(pair, d, h, [-ux, -uy, 0, 0], [ux, uy, 0, 0]), 'm');
}

/** Who is ahead along the way the dog runs. */
export interface Ahead extends Quantity {
  readonly who: 'handler' | 'dog' | 'cannotTell';
}

/** How far the handler is ahead of the dog, along the dog's way, metres; below 0 where the dog is. */
export function aheadAt(pair: Pair, at: number): Ahead | null {
  const [d, h] = [whereAt(pair.dog, at), whereAt(pair.handler, at)];
  if (!d || !h) return null;
  const speed = Math.hypot(d.vx, d.vy);
  // A dog that stands has no way to be ahead on.
  if (speed < 0.3) return null;
  const [ux, uy] = [d.vx / speed, d.vy / speed];
  const [rx, ry] = [h.x - d.x, h.y - d.y];
  const along = rx * ux + ry * uy;
  const turn = (k: number): number => k / speed;
  const byDog = [-ux, -uy, turn(rx - along * ux), turn(ry - along * uy)];
  const figure = banded(along, jointVariance(pair, d, h, byDog, [ux, uy, 0, 0]), 'm');
  const who = Math.abs(along) <= figure.plusMinus ? 'cannotTell' : along > 0 ? 'handler' : 'dog';
  return { ...figure, who };
}

/** A time over which one of the two was not marked: what the lines say of it is a guess. */
export interface Unseen {
  readonly who: 'dog' | 'handler';
  readonly from: number;
  readonly to: number;
}

/** Why nothing can be told of the handler at one moment and the dog at another; null where it can. */
function unseenOf({ dog, handler }: Pair, handlerAt: number, dogAt: number): Unseen | null {
  const her = unseenAt(handler, handlerAt);
  if (her) return { who: 'handler', ...her };
  const dogs = unseenAt(dog, dogAt);
  return dogs && { who: 'dog', ...dogs };
}

/** The handler crosses the way that the dog takes. */
export interface PathCrossed {
  readonly place: Place;
  /** When the handler is there, and when the dog is, seconds of the run. */
  readonly handlerAt: Quantity;
  readonly dogAt: Quantity;
  /** Which came first, or neither can be told. Where the dog was not marked: as far as all of that time lies on one side. */
  readonly first: 'handler' | 'dog' | 'cannotTell';
  /** The side of the dog's way onto which the handler goes. */
  readonly onto: 'left' | 'right';
  /** Where it lies in a time without marks, once for each such time: no more than that there is a crossing can be told. */
  readonly unseen: Unseen | null;
}

/** What the dog ran longer before or after is another part of the run, seconds (ours). */
const together = 5;

/** Every time the handler crosses the path that the dog takes about then, in the order in which the handler does. */
export function pathsCrossed(pair: Pair): readonly PathCrossed[] {
  const dogs = everywhere(pair.dog);
  const handlers = everywhere(pair.handler);
  const found: PathCrossed[] = [];
  for (let i = 0; i + 1 < handlers.length; i++)
    for (let j = 0; j + 1 < dogs.length; j++) {
      const hit = meeting(handlers, i, dogs, j);
      if (!hit) continue;
      const t = mixed(pair.handler.times, i, hit.u);
      const s = mixed(pair.dog.times, j, hit.w);
      const crossed = Math.abs(t - s) <= together && crossingAt(pair, t, s);
      if (crossed) found.push(crossed);
    }
  return found.filter(
    ({ unseen }, i) =>
      !unseen || found.findIndex((c) => c.unseen?.who === unseen.who && c.unseen.from === unseen.from) === i,
  );
}

const mixed = (times: readonly number[], i: number, u: number): number => {
  const [a = 0, b = 0] = [times[i], times[i + 1]];
  return a + u * (b - a);
};

type Ways = readonly Pick<Whereabouts, 'x' | 'y'>[];

/** Where two straight pieces meet, as shares of each; half open, so that a corner counts once. */
function meeting(p: Ways, i: number, q: Ways, j: number): { u: number; w: number } | null {
  const [a, b, c, d] = [p[i], p[i + 1], q[j], q[j + 1]];
  if (!a || !b || !c || !d) return null;
  const [ax, ay, cx, cy] = [b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y];
  const det = ax * cy - ay * cx;
  if (Math.abs(det) < 1e-12) return null;
  const [ex, ey] = [c.x - a.x, c.y - a.y];
  const u = (ex * cy - ey * cx) / det;
  const w = (ex * ay - ey * ax) / det;
  return u >= 0 && u < 1 && w >= 0 && w < 1 ? { u, w } : null;
}

function crossingAt(pair: Pair, t: number, s: number): PathCrossed | null {
  const [h, d] = [whereAt(pair.handler, t), whereAt(pair.dog, s)];
  const place = placeAt(pair.handler, t);
  if (!h || !d || !place) return null;
  const cross = d.vx * h.vy - d.vy * h.vx;
  if (Math.abs(cross) < 1e-9) return null;
  // Moving either line by a small way moves the moment at which they meet: handler along its own way by t, dog by s.
  const handlerSlopes = [d.vy / cross, -d.vx / cross, 0, 0];
  const dogSlopes = [h.vy / cross, -h.vx / cross, 0, 0];
  const minus = (list: readonly number[]): number[] => list.map((v) => -v);
  const handlerAt = banded(t, jointVariance(pair, d, h, minus(handlerSlopes), handlerSlopes), 's');
  const dogAt = banded(s, jointVariance(pair, d, h, minus(dogSlopes), dogSlopes), 's');
  const between = handlerSlopes.map((v, i) => v - (dogSlopes[i] ?? 0));
  const gap = banded(s - t, jointVariance(pair, d, h, minus(between), between), 's');
  const unseen = unseenOf(pair, t, s);
  return {
    place,
    handlerAt,
    dogAt,
    first: unseen ? firstThough(unseen, handlerAt) : sureSign(gap),
    onto: cross > 0 ? 'left' : 'right',
    unseen,
  };
}

const sureSign = ({ value, plusMinus }: Quantity): PathCrossed['first'] =>
  Math.abs(value) <= plusMinus ? 'cannotTell' : value > 0 ? 'handler' : 'dog';

/** When the dog came by is a guess, but it was within the time in which she was not marked. */
function firstThough({ who, from, to }: Unseen, { value, plusMinus }: Quantity): PathCrossed['first'] {
  if (who === 'handler') return 'cannotTell';
  if (value - plusMinus > to) return 'dog';
  return value + plusMinus < from ? 'handler' : 'cannotTell';
}

/** Wider than this a moment is none, seconds (ours): she goes along the dog's path more than across it. */
const widestMoment = 1;

/** Whether it can be told when the handler crossed, and who was first where the dog was not marked. */
export const toldCrossed = ({ handlerAt, unseen, first }: PathCrossed): boolean =>
  handlerAt.plusMinus <= widestMoment && (unseen === null || first !== 'cannotTell');

/** Where the handler was and which way she went at one moment. */
export interface HandlerThen {
  readonly place: Place;
  readonly speed: Quantity;
  /** Degrees, counter-clockwise from +x; null where she stands as far as can be told. */
  readonly heading: Quantity | null;
  readonly ahead: Ahead | null;
  readonly apart: Quantity | null;
  /** In a time without marks all of this is a guess. */
  readonly unseen: Unseen | null;
}

/**
 * What the dog could see of the handler when she had to commit.
 * @param at seconds of the run; @param unsure how far the moment may be off, one standard deviation
 */
export function handlerWhen(pair: Pair, at: number, unsure = 0): HandlerThen | null {
  const h = whereAt(pair.handler, at);
  const place = placeAt(pair.handler, at, unsure);
  if (!h || !place) return null;
  const speed = Math.hypot(h.vx, h.vy);
  const [ux, uy] = speed > 1e-9 ? [h.vx / speed, h.vy / speed] : [1, 0];
  const across = varianceAlong([0, 0, -uy, ux], h.cov);
  const heading = banded(
    (Math.atan2(h.vy, h.vx) * 180) / Math.PI,
    across * (180 / Math.PI / speed) ** 2,
    'deg',
  );
  return {
    place,
    speed: banded(speed, varianceAlong([0, 0, ux, uy], h.cov), 'm/s'),
    heading: speed > 1e-9 && heading.plusMinus < 90 ? heading : null,
    ahead: aheadAt(pair, at),
    apart: apartAt(pair, at),
    unseen: unseenOf(pair, at, at),
  };
}
