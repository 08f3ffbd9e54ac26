import type { Runner } from '../runner.ts';

/**
 * What a change of speed costs where it is made outside of the piece that is timed: seconds lost over its metres against
 * running those at `usual`, which is no less than either. At a steady rate a from v to w it takes |w - v| / a over
 * |w² - v²| / 2a metres, so that |w - v| (2 usual - v - w) / (2 a usual) are lost. Two changes one after the other
 * cost what one does.
 */
export function changeSeconds(from: number, to: number, usual: number, { braking, pickUp }: Runner): number {
  if (from === to) return 0;
  return (Math.abs(to - from) * (2 * usual - from - to)) / (2 * (to < from ? braking : pickUp) * usual);
}

/**
 * Seconds for a piece of `metres` that begins at one speed and ends at another, neither above `most`: she picks up until
 * she must brake, and runs at `most` between where there is room for it. Where there is no room for the change
 * itself, what is left of it is made before the piece (slowing down) or after it (picking up), at the price of
 * `changeSeconds`.
 * @param before m/s usual before the piece, `after` behind it
 */
export function stretchSeconds(
  metres: number,
  from: number,
  to: number,
  most: number,
  before: number,
  after: number,
  runner: Runner,
): number {
  const { pickUp, braking } = runner;
  const change = to * to - from * from;
  if (change < 0 && -change > 2 * braking * metres) {
    const first = Math.sqrt(to * to + 2 * braking * metres);
    return (first - to) / braking + changeSeconds(from, first, Math.max(from, before), runner);
  }
  if (change > 0 && change > 2 * pickUp * metres) {
    const last = Math.sqrt(from * from + 2 * pickUp * metres);
    return (last - from) / pickUp + changeSeconds(last, to, Math.max(to, after), runner);
  }
  const peakSquare = (2 * metres + (from * from) / pickUp + (to * to) / braking) / (1 / pickUp + 1 / braking);
  if (peakSquare <= most * most) {
    const peak = Math.sqrt(peakSquare);
    return (peak - from) / pickUp + (peak - to) / braking;
  }
  const run = metres - (most * most - from * from) / (2 * pickUp) - (most * most - to * to) / (2 * braking);
  return (most - from) / pickUp + (most - to) / braking + run / most;
}

/** Speed in a turn of this radius: grip holds so much sideways acceleration, v² / r. */
export const turningSpeed = (radius: number, { grip, topSpeed }: Runner): number =>
  Math.min(topSpeed, Math.sqrt(grip * radius));

/** So many radii are tried from the tightest to the widest. */
const steps = 6;

/**
 * Radii a way is tried with: from the tightest turn to the least that is run at top speed, each so many times the
 * one before. A wider turn gains nothing.
 */
export function radiiOf(runner: Runner, count = steps): readonly number[] {
  const least = runner.leastRadius;
  const most = Math.max(least, (runner.topSpeed * runner.topSpeed) / runner.grip);
  if (most <= least * 1.01) return [least];
  return Array.from({ length: count }, (_, i) => least * (most / least) ** (i / (count - 1)));
}

/** The speed at which she goes round the end of a wing or a corner, where no other is set. */
export const roundingSpeed = (runner: Runner): number => turningSpeed(runner.leastRadius * 1.4, runner);
