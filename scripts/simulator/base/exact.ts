/**
 * Angles and roots from additions, multiplications, divisions and square roots alone.
 * IEEE 754 fixes the last bit of those four; engines are free in the last bit of Math.sin and its kin,
 * so a run computed with them would not be the same run on every version of Node.
 */

export const TURN = 2 * Math.PI;

/** Brings an angle in radians into (-pi, pi]. */
export function wrapAngle(angle: number): number {
  let a = angle - TURN * Math.floor((angle + Math.PI) / TURN);
  if (a > Math.PI) a -= TURN;
  if (a <= -Math.PI) a += TURN;
  return a;
}

function sineNearZero(x: number): number {
  const q = x * x;
  let term = x;
  let sum = x;
  for (let n = 1; n <= 11; n++) {
    term = (-term * q) / (2 * n * (2 * n + 1));
    sum += term;
  }
  return sum;
}

/** Sine of an angle in radians. */
export function sine(angle: number): number {
  let a = wrapAngle(angle);
  if (a > Math.PI / 2) a = Math.PI - a;
  else if (a < -Math.PI / 2) a = -Math.PI - a;
  return sineNearZero(a);
}

/** Cosine of an angle in radians. */
export function cosine(angle: number): number {
  return sine(angle + Math.PI / 2);
}

function arcTangentUnit(x: number): number {
  // Two halvings of the angle bring |x| <= 1 below tan(pi/16), where the series is short.
  let y = x;
  for (let i = 0; i < 2; i++) y = y / (1 + Math.sqrt(1 + y * y));
  const q = y * y;
  let power = y;
  let sum = y;
  for (let n = 3; n <= 25; n += 2) {
    power = -power * q;
    sum += power / n;
  }
  return 4 * sum;
}

/** Angle of the vector (x, y) in radians, in (-pi, pi]. */
export function direction(y: number, x: number): number {
  if (x === 0 && y === 0) return 0;
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  let a = ay <= ax ? arcTangentUnit(ay / ax) : Math.PI / 2 - arcTangentUnit(ax / ay);
  if (x < 0) a = Math.PI - a;
  return y < 0 ? -a : a;
}

/** Length of the vector (x, y). */
export function lengthOf(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}

export function clamp(value: number, low: number, high: number): number {
  return value < low ? low : value > high ? high : value;
}

export function mix(a: number, b: number, share: number): number {
  return a + (b - a) * share;
}

/** 0 below `low`, 1 above `high`, smooth (3u^2 - 2u^3) between. */
export function smoothStep(low: number, high: number, value: number): number {
  const u = clamp((value - low) / (high - low), 0, 1);
  return u * u * (3 - 2 * u);
}
