import { piecesFor, type Facing } from '../dubins.ts';
import type { Runner } from '../runner.ts';
import { changeSeconds, stretchSeconds, turningSpeed } from './pace.ts';

/** So many ways there can be between two facings: radii, by four pairs of angles where one is free, by words. */
const room = 24 * 4 * 6;

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
};

const scratch = new Float64Array(18);

/**
 * Lays out the Dubins paths of all radii from one facing to another in `laid`, with the seconds each takes: turns at
 * their turning speed, straights as fast as she can pick up and brake, changes of speed at their price (pace.ts).
 * An angle that is NaN is free: she may set off, or arrive, any way.
 * @param longest metres; longer ones are left out unless nothing else is left
 */
export function layOut(
  runner: Runner,
  radii: readonly number[],
  from: Facing,
  to: Facing,
  speedFrom: number,
  speedTo: number,
  longest: number,
): void {
  laid.count = 0;
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const d = Math.sqrt(dx * dx + dy * dy);
  const along = d > 0 ? Math.atan2(dy, dx) : 0;
  const free = Number.isNaN(from.angle) || Number.isNaN(to.angle);
  for (const radius of radii) {
    const speed = turningSpeed(radius, runner);
    if (!free) {
      piecesFor(d / radius, from.angle - along, to.angle - along, scratch);
      keep(runner, radius, speed, from.angle, to.angle, speedFrom, speedTo, longest);
      continue;
    }
    for (const angle0 of anglesAway(from, to, radius)) {
      for (const angle1 of anglesIn(from, to, radius)) {
        piecesFor(d / radius, angle0 - along, angle1 - along, scratch);
        keep(runner, radius, speed, angle0, angle1, speedFrom, speedTo, longest);
      }
    }
  }
}

function keep(
  runner: Runner,
  radius: number,
  speed: number,
  angle0: number,
  angle1: number,
  speedFrom: number,
  speedTo: number,
  longest: number,
): void {
  for (let word = 0; word < 6; word++) {
    const t = scratch[word * 3] ?? NaN;
    const p = scratch[word * 3 + 1] ?? NaN;
    const q = scratch[word * 3 + 2] ?? NaN;
    const length = (t + p + q) * radius;
    if (!(length >= 0) || (length > longest && laid.count > 0) || laid.count >= room) continue;
    const seconds =
      word < 4
        ? turnStraightTurn(runner, speed, t * radius, p * radius, q * radius, speedFrom, speedTo)
        : threeTurns(runner, speed, length, speedFrom, speedTo);
    const i = laid.count++;
    laid.seconds[i] = seconds;
    laid.first[i] = t;
    laid.middle[i] = p;
    laid.last[i] = q;
    laid.length[i] = length;
    laid.word[i] = word;
    laid.radius[i] = radius;
    laid.angle0[i] = angle0;
    laid.angle1[i] = angle1;
  }
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
