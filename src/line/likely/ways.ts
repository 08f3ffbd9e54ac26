import { words, wordPieces, type Facing, type Word } from '../dubins.ts';
import type { Runner } from '../runner.ts';
import { changeSeconds, radiiOf, straightSeconds, turningSpeed } from './pace.ts';
import { leastStep, toBox, type Box } from './solids.ts';

/** What ways on the ground are looked for in: the dog, the turns she makes, what stands in her way. */
export interface Terrain {
  readonly runner: Runner;
  readonly radii: readonly number[];
  readonly boxes: readonly Box[];
}

export const terrainOf = (runner: Runner, boxes: readonly Box[], radii = radiiOf(runner)): Terrain => ({
  runner,
  radii,
  boxes,
});

/** A way on the ground without a corner. Pieces as in `wordPieces`: turns in radians, a straight in radii. */
export interface Way {
  readonly from: Facing;
  readonly to: Facing;
  readonly word: Word;
  readonly pieces: readonly [number, number, number];
  readonly radius: number;
  readonly length: number;
  readonly seconds: number;
  /** False where it comes too near to something solid. */
  readonly clear: boolean;
  /** True where no quicker one had to be left for something in its way. */
  readonly quickest: boolean;
  /** What it comes too near to; undefined where it is clear. */
  readonly hit: Box | undefined;
  /** The longest that was looked at to find it: what lies outside of that reach cannot change it. */
  readonly lookedAt: number;
}

const scratch = new Float64Array(18);
/** So many ways are held against the equipment before the best of them is called blocked. */
const mostTries = 16;

/** A way before it is held against the equipment: kept as plain numbers, since there are many. */
const room = 6 * 4 * 32;
const seconds = new Float64Array(room);
const shape = new Float64Array(room * 3);
const facts = new Float64Array(room * 4);
let sums = new Float64Array(256);
let gaps = new Float64Array(256);
let nearby = new Int32Array(256);

/**
 * The quickest way from one facing to another among Dubins paths of several radii that keeps clear of all equipment;
 * where none does, the quickest of all, not clear. Turns are run at their turning speed, straights as fast as
 * she can pick up and brake. An angle that is NaN is free: the dog may set off, or arrive, any way.
 * @param speedFrom m/s at the beginning, `speedTo` at the end
 */
export function wayBetween(
  terrain: Terrain,
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
): Way {
  const { radii, runner } = terrain;
  let count = 0;
  radii.forEach((radius, r) => {
    if (count + 24 > room) return;
    const speed = turningSpeed(radius, runner);
    const slower = changeSeconds(speedFrom, speed, runner);
    const faster = changeSeconds(speed, speedTo, runner);
    for (const angle0 of anglesAway(from, to, radius)) {
      for (const angle1 of anglesIn(from, to, radius)) {
        wordPieces(from.x, from.y, angle0, to.x, to.y, angle1, radius, scratch);
        for (let word = 0; word < 6; word++) {
          const t = scratch[word * 3] ?? NaN;
          const p = scratch[word * 3 + 1] ?? NaN;
          const q = scratch[word * 3 + 2] ?? NaN;
          const length = (t + p + q) * radius;
          if (!(length >= 0)) continue;
          const turns = word < 4 ? t + q : t + p + q;
          let all = (turns * radius) / speed;
          if (word >= 4) all += slower + faster;
          else {
            if (t > 0) all += slower;
            if (q > 0) all += faster;
            all += straightSeconds(p * radius, t > 0 ? speed : speedFrom, q > 0 ? speed : speedTo, runner);
          }
          seconds[count] = all;
          shape.set([t, p, q], count * 3);
          facts.set([r, word, angle0, angle1], count * 4);
          count++;
        }
      }
    }
  });
  return chosen(terrain, from, to, count);
}

/** The quickest of the ways laid out that is clear, else the quickest. */
function chosen({ radii, runner, boxes }: Terrain, from: Facing, to: Facing, count: number): Way {
  const gap = runner.besideWing;
  measureBoxes(boxes, from, to, gap);
  let first: Way | undefined;
  let lookedAt = 0;
  for (let tries = 0; tries < mostTries; tries++) {
    let best = -1;
    for (let i = 0; i < count; i++) {
      if ((seconds[i] ?? Infinity) < (best < 0 ? Infinity : (seconds[best] ?? Infinity))) best = i;
    }
    if (best < 0) break;
    const [t = 0, p = 0, q = 0] = shape.subarray(best * 3, best * 3 + 3);
    const [r = 0, word = 0, angle0 = 0, angle1 = 0] = facts.subarray(best * 4, best * 4 + 4);
    const radius = radii[r] ?? runner.leastRadius;
    const length = (t + p + q) * radius;
    lookedAt = Math.max(lookedAt, length);
    const start = { x: from.x, y: from.y, angle: angle0 };
    const hit = hitOf(boxes, start, words[word] ?? 'LSL', t, p, q, radius, length);
    const way: Way = {
      from: start,
      to: { x: to.x, y: to.y, angle: angle1 },
      word: words[word] ?? 'LSL',
      pieces: [t, p, q],
      radius,
      length,
      seconds: seconds[best] ?? Infinity,
      clear: hit === undefined,
      quickest: tries === 0,
      hit,
      lookedAt,
    };
    if (way.clear) return way;
    first ??= way;
    seconds[best] = Infinity;
  }
  return { ...(first ?? standing(from, to)), lookedAt };
}

const standing = (from: Facing, to: Facing): Way => ({
  from,
  to,
  word: 'LSL',
  pieces: [0, 0, 0],
  radius: 1,
  length: 0,
  seconds: 0,
  clear: true,
  quickest: true,
  hit: undefined,
  lookedAt: 0,
});

/** For each box: how far round by its middle it is, and how near a way may come that begins or ends beside it. */
function measureBoxes(boxes: readonly Box[], from: Facing, to: Facing, gap: number): void {
  if (sums.length < boxes.length) {
    sums = new Float64Array(boxes.length * 2);
    gaps = new Float64Array(boxes.length * 2);
    nearby = new Int32Array(boxes.length * 2);
  }
  boxes.forEach((box, i) => {
    const a = Math.hypot(from.x - box.x, from.y - box.y);
    const b = Math.hypot(to.x - box.x, to.y - box.y);
    sums[i] = a + b - 2 * (box.reach + gap);
    let near = gap;
    if (a < box.reach + gap) near = Math.min(near, toBox(box, from.x, from.y));
    if (b < box.reach + gap) near = Math.min(near, toBox(box, to.x, to.y));
    gaps[i] = near - 1e-9;
  });
}

/** The first box that a way comes too near to. Steps on by as much as is surely free. */
function hitOf(
  boxes: readonly Box[],
  from: Facing,
  word: Word,
  t: number,
  p: number,
  q: number,
  radius: number,
  length: number,
): Box | undefined {
  let near = 0;
  for (let i = 0; i < boxes.length; i++) if ((sums[i] ?? 0) <= length) nearby[near++] = i;
  if (near === 0) return undefined;
  let { x, y, angle } = from;
  for (let piece = 0; piece < 3; piece++) {
    const size = piece === 0 ? t : piece === 1 ? p : q;
    if (size === 0) continue;
    const side = word[piece] === 'L' ? 1 : word[piece] === 'R' ? -1 : 0;
    const metres = size * radius;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    for (let at = 0; ;) {
      let [px, py] = [x, y];
      if (side === 0) {
        px += at * cos;
        py += at * sin;
      } else {
        const now = angle + (side * at) / radius;
        px += side * radius * (Math.sin(now) - sin);
        py -= side * radius * (Math.cos(now) - cos);
      }
      let free = Infinity;
      for (let n = 0; n < near; n++) {
        const i = nearby[n] ?? 0;
        const box = boxes[i];
        if (!box) continue;
        const spare = toBox(box, px, py) - (gaps[i] ?? 0);
        if (spare < 0) return box;
        if (spare < free) free = spare;
      }
      if (at >= metres) {
        x = px;
        y = py;
        break;
      }
      at = Math.min(metres, at + Math.max(free, leastStep));
    }
    if (side !== 0) angle += side * size;
  }
  return undefined;
}

/** The angles a way may set off with: as said, or, where she is free, straight for the turn at its end. */
function anglesAway(from: Facing, to: Facing, radius: number): readonly number[] {
  if (!Number.isNaN(from.angle)) return [from.angle];
  const there = Math.atan2(to.y - from.y, to.x - from.x);
  if (Number.isNaN(to.angle)) return [there];
  return [1, -1].map((side) => {
    const cx = to.x - side * radius * Math.sin(to.angle) - from.x;
    const cy = to.y + side * radius * Math.cos(to.angle) - from.y;
    const far = Math.hypot(cx, cy);
    return far > radius ? Math.atan2(cy, cx) - side * Math.asin(radius / far) : there;
  });
}

/** The angles a way may arrive with: as said, or, where she is free, straight out of the turn at its beginning. */
function anglesIn(from: Facing, to: Facing, radius: number): readonly number[] {
  if (!Number.isNaN(to.angle)) return [to.angle];
  const there = Math.atan2(to.y - from.y, to.x - from.x);
  if (Number.isNaN(from.angle)) return [there];
  return [1, -1].map((side) => {
    const cx = to.x - (from.x - side * radius * Math.sin(from.angle));
    const cy = to.y - (from.y + side * radius * Math.cos(from.angle));
    const far = Math.hypot(cx, cy);
    return far > radius ? Math.atan2(cy, cx) + side * Math.asin(radius / far) : there;
  });
}
