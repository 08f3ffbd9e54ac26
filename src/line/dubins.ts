import type { GroundPoint } from '../course/points.ts';

/** A place on the ground and the way faced there: radians, counter-clockwise from +x. */
export interface Facing extends GroundPoint {
  readonly angle: number;
}

/** The six words of which one is always shortest (Dubins 1957): turns to the left and right, and straight. */
export const words = ['LSL', 'RSR', 'LSR', 'RSL', 'RLR', 'LRL'] as const;
export type Word = (typeof words)[number];

/** A way of three pieces, each as long as said, metres; a piece may be of no length. */
export interface DubinsPath {
  readonly word: Word;
  readonly pieces: readonly [number, number, number];
  readonly radius: number;
  readonly length: number;
}

const full = 2 * Math.PI;
/** An angle this close to a full turn is none: floating point left it there. */
const snap = 1e-9;

function turnOf(angle: number): number {
  const turned = angle - full * Math.floor(angle / full);
  return full - turned < snap ? 0 : turned;
}

/**
 * The three pieces of each of the six words, in the units of the radius: turns in radians, straights in radii (Shkel
 * and Lumelsky 2001). NaN where a word does not lead there.
 * @param into 18 numbers, three for each word in the order of `words`
 */
export function wordPieces(
  x0: number,
  y0: number,
  angle0: number,
  x1: number,
  y1: number,
  angle1: number,
  radius: number,
  into: Float64Array,
): void {
  const dx = (x1 - x0) / radius;
  const dy = (y1 - y0) / radius;
  const d = Math.sqrt(dx * dx + dy * dy);
  const along = d > 0 ? Math.atan2(dy, dx) : 0;
  faced(angle0 - along, angle1 - along);
  piecesFor(d, into);
}

/** Two facings as the formulas see them: angles from the line between the places, with their sines and cosines. */
const turns = { a: 0, b: 0, sa: 0, ca: 1, sb: 0, cb: 1 };

/** Takes two angles, `a` and `b` from the line between the places, into `turns`: worked out once for all radii. */
export function faced(a: number, b: number): void {
  turns.a = a;
  turns.b = b;
  turns.sa = Math.sin(a);
  turns.ca = Math.cos(a);
  turns.sb = Math.sin(b);
  turns.cb = Math.cos(b);
}

/** The pieces of all six words for places that lie `d` radii apart, faced as `turns` says. */
export function piecesFor(d: number, into: Float64Array): void {
  for (let word = 0; word < 6; word++) pieceFor(word, d, into);
}

/** The same for one of the six, by its place in `words`: as the formulas are published. */
export function pieceFor(word: number, d: number, into: Float64Array): void {
  const { a, b, sa, ca, sb, cb } = turns;
  if (word === 0 || word === 5) {
    const lx = d + sa - sb;
    const ly = cb - ca;
    const lp = Math.sqrt(lx * lx + ly * ly);
    if (word === 0) {
      // Between circles turned alike; where the two are one, the whole turn is made in the last piece.
      if (lp < 1e-10) put(into, 0, 0, 0, turnOf(b - a));
      else {
        const way = Math.atan2(ly, lx);
        put(into, 0, turnOf(way - a), lp, turnOf(b - way));
      }
      return;
    }
    // Three turns: only where the outer circles lie less than four radii apart.
    const lrl = (8 - lp * lp) / 8;
    if (Math.abs(lrl) > 1) put(into, 5, NaN, NaN, NaN);
    else {
      const p = full - Math.acos(lrl);
      const t = turnOf(-a + Math.atan2(ly, lx) + p / 2);
      put(into, 5, t, p, turnOf(b - a - t + p));
    }
    return;
  }
  if (word === 1 || word === 4) {
    const rx = d - sa + sb;
    const ry = ca - cb;
    const rp = Math.sqrt(rx * rx + ry * ry);
    if (word === 1) {
      if (rp < 1e-10) put(into, 1, 0, 0, turnOf(a - b));
      else {
        const way = Math.atan2(ry, rx);
        put(into, 1, turnOf(a - way), rp, turnOf(way - b));
      }
      return;
    }
    const rlr = (8 - rp * rp) / 8;
    if (Math.abs(rlr) > 1) put(into, 4, NaN, NaN, NaN);
    else {
      const p = full - Math.acos(rlr);
      const t = turnOf(a - Math.atan2(ry, rx) + p / 2);
      put(into, 4, t, p, turnOf(a - b - t + p));
    }
    return;
  }
  // Between circles turned unlike: the straight crosses between them, if they lie two radii apart.
  const side = word === 2 ? 1 : -1;
  const mx = d + side * (sa + sb);
  const my = -side * (ca + cb);
  const mp = squareRoot(mx * mx + my * my - 4);
  if (Number.isNaN(mp)) put(into, word, NaN, NaN, NaN);
  else {
    const way = Math.atan2(my, mx) - Math.atan2(-2 * side, mp);
    put(into, word, turnOf(side * (way - a)), mp, turnOf(side * (way - b)));
  }
}

function put(into: Float64Array, word: number, first: number, middle: number, last: number): void {
  into[word * 3] = first;
  into[word * 3 + 1] = middle;
  into[word * 3 + 2] = last;
}

/** The root of what is below nothing only by the dust of floating point is 0; else NaN. */
const squareRoot = (square: number): number => (square >= 0 ? Math.sqrt(square) : square > -1e-12 ? 0 : NaN);

const pieces = new Float64Array(18);

/**
 * The shortest way from one facing to another that never turns more tightly than `radius`, forward only.
 * Words that lose a piece (a lone turn, a straight and a turn, two turns) are tried by themselves: there the formulas
 * leave a spare full turn behind. Each way is driven, and kept only where it ends where it should.
 * @throws RangeError where the radius is not above 0, or a figure is not finite
 */
export function dubins(from: Facing, to: Facing, radius: number): DubinsPath {
  if (!(radius > 0)) throw new RangeError(`a turn needs a radius above 0 m, not ${radius}`);
  if (![from.x, from.y, from.angle, to.x, to.y, to.angle, radius].every(Number.isFinite))
    throw new RangeError('a way needs finite places and angles');
  wordPieces(from.x, from.y, from.angle, to.x, to.y, to.angle, radius, pieces);
  let best: DubinsPath | undefined;
  const offer = (word: Word, t: number, p: number, q: number): void => {
    if (!(t >= 0 && p >= 0 && q >= 0)) return;
    const path: DubinsPath = {
      word,
      pieces: [t * radius, p * radius, q * radius],
      radius,
      length: (t + p + q) * radius,
    };
    if (best && path.length >= best.length) return;
    const end = driven(from, path, path.length);
    if (Math.hypot(end.x - to.x, end.y - to.y) <= 5e-10) best = path;
  };
  words.forEach((word, i) => {
    offer(word, pieces[i * 3] ?? NaN, pieces[i * 3 + 1] ?? NaN, pieces[i * 3 + 2] ?? NaN);
  });
  for (const side of [1, -1] as const) lesser(from, to, radius, side, offer);
  if (best) return best;
  // All six were turned away by dust (places of astronomical size): the shortest as the formulas have it.
  const longest: DubinsPath = { word: 'LSL', pieces: [0, 0, 0], radius, length: Infinity };
  return words.reduce((least, word, i): DubinsPath => {
    const [t = NaN, p = NaN, q = NaN] = pieces.slice(i * 3, i * 3 + 3);
    const length = (t + p + q) * radius;
    return length < least.length
      ? { word, pieces: [t * radius, p * radius, q * radius], radius, length }
      : least;
  }, longest);
}

/** Offers the ways to this side that lack a piece: turn and straight, straight and turn, turn and turn back. */
function lesser(
  from: Facing,
  to: Facing,
  radius: number,
  side: 1 | -1,
  offer: (word: Word, t: number, p: number, q: number) => void,
): void {
  const same: Word = side === 1 ? 'LSL' : 'RSR';
  const other: Word = side === 1 ? 'LSR' : 'RSL';
  const turn = turnOf(side * (to.angle - from.angle));
  const centre = (f: Facing, s: number): GroundPoint => ({
    x: f.x - s * radius * Math.sin(f.angle),
    y: f.y + s * radius * Math.cos(f.angle),
  });
  const mine = centre(from, side);
  const its = centre(to, side);
  const along = (a: number): number =>
    ((its.x - mine.x) * Math.cos(a) + (its.y - mine.y) * Math.sin(a)) / radius;
  offer(same, turn, Math.max(0, along(to.angle)), 0);
  offer(same, 0, Math.max(0, along(from.angle)), turn);
  const back = centre(to, -side);
  const over = Math.atan2(back.y - mine.y, back.x - mine.x) + (side * Math.PI) / 2;
  offer(other, turnOf(side * (over - from.angle)), 0, turnOf(side * (over - to.angle)));
}

const bend = { L: 1, S: 0, R: -1 } as const;

/** Where one is after so many metres of a way, and the way faced there; at its end beyond it. */
export function driven(from: Facing, path: DubinsPath, metres: number): Facing {
  let { x, y, angle } = from;
  let left = metres;
  path.pieces.forEach((piece, i) => {
    const go = Math.max(0, Math.min(piece, left));
    left -= go;
    const side = bend[path.word[i] as 'L' | 'S' | 'R'];
    if (side === 0) {
      x += go * Math.cos(angle);
      y += go * Math.sin(angle);
    } else {
      const next = angle + (side * go) / path.radius;
      x += side * path.radius * (Math.sin(next) - Math.sin(angle));
      y -= side * path.radius * (Math.cos(next) - Math.cos(angle));
      angle = next;
    }
  });
  return { x, y, angle };
}

/** The way as points: the ends of its pieces, and on its turns one at least every `step` radians. */
export function pointsOn(from: Facing, path: DubinsPath, step: number): readonly GroundPoint[] {
  const points: GroundPoint[] = [{ x: from.x, y: from.y }];
  let gone = 0;
  path.pieces.forEach((piece, i) => {
    if (piece === 0) return;
    const parts = path.word[i] === 'S' ? 1 : Math.max(1, Math.ceil(piece / path.radius / step));
    for (let k = 1; k <= parts; k++) {
      const { x, y } = driven(from, path, gone + (piece * k) / parts);
      points.push({ x, y });
    }
    gone += piece;
  });
  return points;
}
