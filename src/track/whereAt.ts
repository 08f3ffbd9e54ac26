import { carried, inverseOf, plus, times, timesTransposed, transposed, zeros, type Mat } from './matrices.ts';
import { onward } from './motion.ts';
import type { RealLine } from './realLine.ts';
import { shakeBetween } from './spans.ts';
import type { Estimate } from './smoother.ts';

/** Where a body is and how it moves: metres and metres a second. */
export interface Whereabouts {
  readonly x: number;
  readonly y: number;
  readonly vx: number;
  readonly vy: number;
  /** Covariance of x, y, vx, vy from clicks and movement. */
  readonly own: Mat;
  /** How the four move with each parameter of the fit, 4 × parameters; null where there is no fit. */
  readonly byFit: Mat | null;
  /** Covariance of the four with what the fit adds. The fit is off once, for all moments alike. */
  readonly cov: Mat;
}

/** Where the body is at a moment; null outside of the line. Exact between stored states too. */
export function whereAt(line: RealLine, at: number): Whereabouts | null {
  if (!(at >= line.from && at <= line.to)) return null;
  const i = lastAtOrBefore(line.times, at);
  const here = line.smoothed.states[i];
  if (!here) return null;
  return whereabouts(line, at === line.times[i] ? here : between(line, i, at));
}

/** The time without a mark that a moment lies in: what the line says there is a guess. Null where a mark lies near. */
export const unseenAt = ({ gaps }: RealLine, at: number): RealLine['gaps'][number] | null =>
  gaps.find((g) => at > g.from && at < g.to) ?? null;

/** Every stored moment. */
export const everywhere = (line: RealLine): readonly Whereabouts[] =>
  line.smoothed.states.map((state) => whereabouts(line, state));

function whereabouts(line: RealLine, { mean, cov }: Estimate): Whereabouts {
  const value = (row: number): number => mean.v[row * mean.cols] ?? 0;
  const parameters = mean.cols - 1;
  const of = { x: value(0), y: value(1), vx: value(2), vy: value(3), own: cov };
  if (!line.fit || parameters === 0) return { ...of, byFit: null, cov };
  const byFit = zeros(4, parameters);
  for (let row = 0; row < 4; row++)
    for (let k = 0; k < parameters; k++) byFit.v[row * parameters + k] = mean.v[row * mean.cols + 1 + k] ?? 0;
  return { ...of, byFit, cov: plus(cov, carried(byFit, line.fit.cov)) };
}

/**
 * The state between two stored ones. Given both it depends on nothing else (the movement has no memory but its state),
 * so it is a sum of the two, plus what the movement leaves open between them.
 */
function between(line: RealLine, i: number, at: number): Estimate {
  const [t = at, u = at] = [line.times[i], line.times[i + 1]];
  const [a, b] = [line.smoothed.states[i], line.smoothed.states[i + 1]];
  const back = line.smoothed.back[i];
  if (!a || !b || !back) throw new RangeError('a line with fewer states than moments');
  const [f1, f2] = [onward(at - t), onward(u - at)];
  const q1 = shakeBetween(t, at, line.pushes);
  const q2 = shakeBetween(at, u, line.pushes);
  const ahead = timesTransposed(q1, f2);
  const spread = inverseOf(plus(times(f2, ahead), q2));
  if (!spread) return at - t < u - at ? a : b;
  const fromB = times(ahead, spread.inverse);
  const fromA = plus(f1, times(fromB, times(f2, f1)), -1);
  const crossed = timesTransposed(times(fromA, times(back, b.cov)), fromB);
  return {
    mean: plus(times(fromA, a.mean), times(fromB, b.mean)),
    cov: [
      carried(fromB, b.cov),
      crossed,
      transposed(crossed),
      plus(q1, timesTransposed(fromB, ahead), -1),
    ].reduce((sum, part) => plus(sum, part), carried(fromA, a.cov)),
  };
}

/** The last of rising numbers that is not above `at`; 0 where none is. */
function lastAtOrBefore(rising: readonly number[], at: number): number {
  let low = 0;
  let high = rising.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((rising[middle] ?? Infinity) <= at) low = middle;
    else high = middle - 1;
  }
  return low;
}
