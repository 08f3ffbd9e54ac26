import type { Facing } from '../dubins.ts';
import { changeSeconds, turningSpeed } from './pace.ts';
import type { Terrain } from './ways.ts';

/**
 * Seconds that no way between two facings undercuts, from geometry alone. On the way she must turn from the angle she
 * sets off at to that of the line between the two places, and from that to the angle she arrives at: together at least θ. At a
 * radius r those turns take r θ at its turning speed and bring her r (sin of the one + sin of the other) on; the rest is run
 * at top speed at the best. The least of this over all radii; with θ = 0 it is the straight line at top speed.
 */
export function leastSeconds(
  { radii, runner }: Pick<Terrain, 'radii' | 'runner'>,
  speedFrom: number,
  speedTo: number,
): (from: Facing, to: Facing) => number {
  const { topSpeed } = runner;
  const turns = radii.map((radius) => {
    const speed = turningSpeed(radius, runner);
    return {
      radius,
      perRadian: radius / speed,
      price:
        changeSeconds(speedFrom, speed, Math.max(speedFrom, speed), runner) +
        changeSeconds(speed, speedTo, Math.max(speedTo, speed), runner),
    };
  });
  return (from, to) => {
    const dx = to.x - from.x;
    const dy = to.y - from.y;
    const metres = Math.sqrt(dx * dx + dy * dy);
    const along = Math.atan2(dy, dx);
    const first = Number.isNaN(from.angle) ? 0 : offBy(from.angle - along);
    const last = Number.isNaN(to.angle) ? 0 : offBy(to.angle - along);
    const theta = first + last;
    if (theta < 1e-6) return metres / topSpeed;
    const on = Math.sin(first) + Math.sin(last);
    let least = Infinity;
    for (const { radius, perRadian, price } of turns) {
      const sum = perRadian * theta + Math.max(0, metres - radius * on) / topSpeed + price;
      if (sum < least) least = sum;
    }
    return least;
  };
}

/** How far an angle is from 0, without full turns. */
const offBy = (angle: number): number => Math.abs(angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI)));
