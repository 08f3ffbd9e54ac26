import { faced, pieceFor, piecesFor, type Facing } from '../dubins.ts';
import type { Runner } from '../runner.ts';
import { changeSeconds, stretchSeconds, turningSpeed } from './pace.ts';

/** So many ways there can be between two facings: radii, by four pairs of angles where one is free, by words; sharpened. */
const room = 24 * 4 * 6 + 24;

/** Ways between two facings as plain numbers, since a search lays out millions: pieces as in `wordPieces`. */
export const laid = {
  count: 0,
  seconds: new Float64Array(room),
  first: new Float64Array(room),
  middle: new Float64Array(room),
  last: new Float64Array(room),
  length: new Float64Array(room),
  word: new Int8Array(room),
  radius: new Float64Array(room),
  angle0: new Float64Array(room),
  angle1: new Float64Array(room),
  /** Which of the free angles it has: of those at its beginning and at its end. */
  sides: new Int8Array(room),
};

const scratch = new Float64Array(18);

/** Between which facings, at which speeds ways are laid out. */
interface Between {
  runner: Runner;
  from: Facing;
  to: Facing;
  speedFrom: number;
  speedTo: number;
  longest: number;
  metres: number;
  along: number;
}

function betweenOf(
  runner: Runner,
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
  longest: number,
): Between {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const metres = Math.sqrt(dx * dx + dy * dy);
  const along = metres > 0 ? Math.atan2(dy, dx) : 0;
  return { runner, from, to, speedFrom, speedTo, longest, metres, along };
}

/**
 * Lays out the Dubins paths of all radii from one facing to another in `laid`, with the seconds each takes: turns at
 * their turning speed, straights as fast as she can pick up and brake, changes of speed at their price (pace.ts).
 * Those that are about as quick as the quickest are laid out once more with the best radius between those.
 * An angle that is NaN is free: she may set off, or arrive, any way.
 * @param longest metres; longer ones are left out unless nothing else is left
 * @param halvings so often the step from one radius to the next is halved while a better one is looked for between them
 */
export function layOut(
  runner: Runner,
  radii: readonly number[],
  halvings: number,
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
  longest: number,
): void {
  laid.count = 0;
  const between = betweenOf(runner, from, to, speedFrom, speedTo, longest);
  const { metres, along } = between;
  const free = Number.isNaN(from.angle) || Number.isNaN(to.angle);
  if (!free) faced(from.angle - along, to.angle - along);
  for (const radius of radii) {
    const speed = turningSpeed(radius, runner);
    for (let sides = 0; sides < 4; sides++) {
      if (free && !facedAt(between, radius, sides)) continue;
      piecesFor(metres / radius, scratch);
      for (let word = 0; word < 6; word++) keep(between, word, radius, speed, sides);
      if (!free) break;
    }
  }
  const step = (radii[1] ?? 1) / (radii[0] ?? 1);
  if (step > 1 && halvings > 0) sharpen(between, radii, step, halvings, free);
}

/**
 * Lays out in `laid` two ways of one word only: with the radius given, and with the best one near to it, where that is
 * another. For facings that lie close to those of a way that is known.
 * @param sides which free angles it has, as `laid.sides`
 */
export function layOutNear(
  runner: Runner,
  radii: readonly number[],
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
  longest: number,
  word: number,
  radius: number,
  sides: number,
): void {
  laid.count = 0;
  const between = betweenOf(runner, from, to, speedFrom, speedTo, longest);
  const { metres, along } = between;
  const free = Number.isNaN(from.angle) || Number.isNaN(to.angle);
  if (!free) faced(from.angle - along, to.angle - along);
  else if (!facedAt(between, radius, sides)) return;
  pieceFor(word, metres / radius, scratch);
  keep(between, word, radius, turningSpeed(radius, runner), sides);
  if (laid.count > 0) sharpenOne(between, radii, nearStep, nearHalvings, free, 0);
}

/** How far off the best radius near a known one is looked for at first, as a share of it, and how closely. */
const nearStep = 1.2;
const nearHalvings = 4;

/** The angles that were taken last. */
const angles = { from: 0, to: 0 };

/** Takes free angles so that she sets off straight for, or comes straight out of, a turn to one side or the other. */
function facedAt({ from, to, along }: Between, radius: number, sides: number): boolean {
  const angle0 = anglesAway(from, to, radius)[sides >> 1];
  const angle1 = anglesIn(from, to, radius)[sides & 1];
  if (angle0 === undefined || angle1 === undefined) return false;
  angles.from = angle0;
  angles.to = angle1;
  faced(angle0 - along, angle1 - along);
  return true;
}

/** Seconds of the way of one word that lies in `scratch`; NaN where there is none. */
function timed({ runner, speedFrom, speedTo }: Between, word: number, radius: number, speed: number): number {
  const t = (scratch[word * 3] ?? NaN) * radius;
  const p = (scratch[word * 3 + 1] ?? NaN) * radius;
  const q = (scratch[word * 3 + 2] ?? NaN) * radius;
  return word < 4
    ? turnStraightTurn(runner, speed, t, p, q, speedFrom, speedTo)
    : threeTurns(runner, speed, t + p + q, speedFrom, speedTo);
}

function keep(between: Between, word: number, radius: number, speed: number, sides: number): void {
  const t = scratch[word * 3] ?? NaN;
  const p = scratch[word * 3 + 1] ?? NaN;
  const q = scratch[word * 3 + 2] ?? NaN;
  const length = (t + p + q) * radius;
  if (!(length >= 0) || (length > between.longest && laid.count > 0) || laid.count >= room) return;
  const i = laid.count++;
  laid.seconds[i] = timed(between, word, radius, speed);
  laid.first[i] = t;
  laid.middle[i] = p;
  laid.last[i] = q;
  laid.length[i] = length;
  laid.word[i] = word;
  laid.radius[i] = radius;
  laid.angle0[i] = Number.isNaN(between.from.angle) ? angles.from : between.from.angle;
  laid.angle1[i] = Number.isNaN(between.to.angle) ? angles.to : between.to.angle;
  laid.sides[i] = sides;
}

/** A way this much slower than the quickest, seconds, may be the quickest once its radius is the best. */
const sharpened = 0.1;

/** Lays out the words that are about as quick as the quickest with the best radius between those laid out. */
function sharpen(
  between: Between,
  radii: readonly number[],
  step: number,
  halvings: number,
  free: boolean,
): void {
  const { count, seconds, word: words } = laid;
  let least = Infinity;
  for (let i = 0; i < count; i++) least = Math.min(least, seconds[i] ?? Infinity);
  for (let word = 0; word < 6; word++) {
    let best = -1;
    let quickest = least + sharpened;
    for (let i = 0; i < count; i++) {
      if (words[i] !== word) continue;
      const s = seconds[i] ?? Infinity;
      if (s >= quickest) continue;
      quickest = s;
      best = i;
    }
    if (best >= 0) sharpenOne(between, radii, step, halvings, free, best);
  }
}

function sharpenOne(
  between: Between,
  radii: readonly number[],
  step: number,
  halvings: number,
  free: boolean,
  which: number,
): void {
  const { runner, metres } = between;
  const word = laid.word[which] ?? 0;
  const sides = laid.sides[which] ?? 0;
  const begun = laid.radius[which] ?? 1;
  const tightest = radii[0] ?? 0;
  const widest = radii.at(-1) ?? Infinity;
  let radius = begun;
  let best = laid.seconds[which] ?? Infinity;
  const at = (r: number): number => {
    if (free && !facedAt(between, r, sides)) return Infinity;
    pieceFor(word, metres / r, scratch);
    return timed(between, word, r, turningSpeed(r, runner));
  };
  let by = step;
  for (let k = 0; k < halvings; k++) {
    by = Math.sqrt(by);
    const wider = Math.min(widest, radius * by);
    const tighter = Math.max(tightest, radius / by);
    const a = at(wider);
    const b = at(tighter);
    if (a < best && !(b < a)) {
      best = a;
      radius = wider;
    } else if (b < best) {
      best = b;
      radius = tighter;
    }
  }
  if (radius === begun) return;
  at(radius);
  keep(between, word, radius, turningSpeed(radius, runner), sides);
}

/**
 * Seconds for a turn, a straight and a turn, metres each. Where she comes in faster than the turn allows she has slowed down
 * before it; where she comes in slower she picks up on it, as far as its length lets her; the same at the other end.
 */
function turnStraightTurn(
  runner: Runner,
  speed: number,
  first: number,
  straight: number,
  last: number,
  speedFrom: number,
  speedTo: number,
): number {
  const { pickUp, braking } = runner;
  let seconds = 0;
  let begin = speedFrom;
  let end = speedTo;
  if (first > 0) {
    begin =
      speedFrom < speed ? Math.min(speed, Math.sqrt(speedFrom * speedFrom + 2 * pickUp * first)) : speed;
    seconds +=
      begin < speed
        ? (begin - speedFrom) / pickUp
        : first / speed + changeSeconds(speedFrom, speed, Math.max(speedFrom, speed), runner);
  }
  if (last > 0) {
    end = speedTo < speed ? Math.min(speed, Math.sqrt(speedTo * speedTo + 2 * braking * last)) : speed;
    seconds +=
      end < speed
        ? (end - speedTo) / braking
        : last / speed + changeSeconds(speed, speedTo, Math.max(speedTo, speed), runner);
  }
  return seconds + stretchSeconds(straight, begin, end, runner.topSpeed, speedFrom, speedTo, runner);
}

/** The same for three turns one after another, `metres` together. */
function threeTurns(
  runner: Runner,
  speed: number,
  metres: number,
  speedFrom: number,
  speedTo: number,
): number {
  const begin = Math.min(speedFrom, speed);
  const end = Math.min(speedTo, speed);
  return (
    changeSeconds(speedFrom, begin, speedFrom, runner) +
    stretchSeconds(metres, begin, end, speed, speedFrom, speedTo, runner) +
    changeSeconds(end, speedTo, speedTo, runner)
  );
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
