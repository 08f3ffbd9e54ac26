import type { Runner } from '../runner.ts';

/**
 * What a change of speed costs, beyond the way itself: seconds lost against running on at the faster of the two, where
 * the change is made outside of the piece that is timed. From speed v to a lower w: (v - w)² / (2 · braking · v);
 * from w up to v: (v - w)² / (2 · pickUp · v). (Uniform acceleration; she runs the metres of the change either way.)
 */
export function changeSeconds(from: number, to: number, { braking, pickUp }: Runner): number {
  if (to < from) return ((from - to) * (from - to)) / (2 * braking * from);
  if (to > from) return ((to - from) * (to - from)) / (2 * pickUp * to);
  return 0;
}

/**
 * Seconds for a straight piece of `metres` that begins at one speed and ends at another: she picks up until she must
 * brake, and runs at top speed between where there is room for it. Where there is no room for the change itself, what
 * is left of it is made before the piece (slowing down) or after it (picking up), at the price of `changeSeconds`.
 */
export function straightSeconds(metres: number, from: number, to: number, runner: Runner): number {
  const { topSpeed, pickUp, braking } = runner;
  const change = to * to - from * from;
  if (change < 0 && -change > 2 * braking * metres) {
    const first = Math.sqrt(to * to + 2 * braking * metres);
    return (first - to) / braking + changeSeconds(from, first, runner);
  }
  if (change > 0 && change > 2 * pickUp * metres) {
    const last = Math.sqrt(from * from + 2 * pickUp * metres);
    return (last - from) / pickUp + changeSeconds(last, to, runner);
  }
  const peakSquare = (2 * metres + (from * from) / pickUp + (to * to) / braking) / (1 / pickUp + 1 / braking);
  if (peakSquare <= topSpeed * topSpeed) {
    const peak = Math.sqrt(peakSquare);
    return (peak - from) / pickUp + (peak - to) / braking;
  }
  const run =
    metres -
    (topSpeed * topSpeed - from * from) / (2 * pickUp) -
    (topSpeed * topSpeed - to * to) / (2 * braking);
  return (topSpeed - from) / pickUp + (topSpeed - to) / braking + run / topSpeed;
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
