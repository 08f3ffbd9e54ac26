/**
 * Angles from additions, multiplications, divisions and square roots alone.
 * IEEE 754 fixes the last bit of those; engines are free in the last bit of Math.sin, Math.hypot and their kin,
 * so a run computed with them would not be the same run on every version of Node.
 */

export const TURN = 2 * Math.PI;

/** Brings an angle in radians into (-pi, pi]. */
export function wrapAngle(angle: number): number {
  if (angle > -Math.PI && angle <= Math.PI) return angle;
  let a = angle - TURN * Math.floor((angle + Math.PI) / TURN);
  if (a > Math.PI) a -= TURN;
  if (a <= -Math.PI) a += TURN;
  return a;
}

/** Reciprocals of the factorials 3!, 5!, ... 21!, with the signs of the sine series. */
const sineTerms = [3, 5, 7, 9, 11, 13, 15, 17, 19, 21].map((n, i) => {
  let product = 1;
  for (let k = 2; k <= n; k++) product *= k;
  return (i % 2 === 0 ? -1 : 1) / product;
});

function sineNearZero(x: number): number {
  const q = x * x;
  let sum = 0;
  for (let k = sineTerms.length - 1; k >= 0; k--) sum = (sum + (sineTerms[k] ?? 0)) * q;
  return x + x * sum;
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
  for (let n = 3; n <= 21; n += 2) {
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

/** e to the power x, for moderate x. */
export function exponential(x: number): number {
  const halvings = Math.max(0, Math.ceil(Math.abs(x)) + 1);
  let scale = 1;
  let n = 0;
  while (scale < halvings) {
    scale *= 2;
    n++;
  }
  const u = x / scale;
  let sum = 1;
  for (let k = 14; k >= 1; k--) sum = 1 + (u / k) * sum;
  for (let i = 0; i < n; i++) sum *= sum;
  return sum;
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
