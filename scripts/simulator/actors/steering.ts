import { clamp, cosine, sine, wrapAngle } from '../base/exact.ts';
import { dogParameters, valueOf } from '../parameters.ts';

/** A body that runs on the ground. */
export interface Running {
  x: number;
  y: number;
  heading: number;
  speed: number;
}

/** What she wants to do with the next moment. */
export interface Wish {
  /** Signed angle from her heading to the way she wants to go. */
  readonly off: number;
  /** Bend of her way ahead, 1/m, that she has to be slow enough for. */
  readonly bow: number;
  /** Speed she has to be down to, and how far ahead. */
  readonly speedThere: number;
  readonly far: number;
  readonly top: number;
}

const dryGrip = valueOf(dogParameters.lateralAcceleration);
const dryBrake = valueOf(dogParameters.braking);
const dryPush = valueOf(dogParameters.startAcceleration);
const tightest = valueOf(dogParameters.smallestTurn);
const lag = valueOf(dogParameters.steeringTime);

/**
 * Moves a running body by `dt`: turning is limited by grip and radius, speeding up and braking by what grip is left.
 * `hold`: share of the grip on dry grass that the ground gives.
 */
export function steer(body: Running, wish: Wish, dt: number, hold: number): void {
  const grip = dryGrip * hold;
  const brake = dryBrake * hold;
  const push = dryPush * hold;
  const bend = wish.bow > 1e-6 ? Math.sqrt((0.8 * grip) / wish.bow) : Infinity;
  const inTime = Math.sqrt(wish.speedThere * wish.speedThere + 2 * 0.85 * brake * wish.far);
  const wanted = Math.max(1.4, Math.min(wish.top, bend, inTime));
  const most = Math.min(grip / Math.max(body.speed, 0.5), body.speed / tightest);
  const rate = clamp(wish.off / lag, -most, most);
  const used = Math.abs(rate * body.speed) / grip;
  const left = Math.sqrt(Math.max(0.12, 1 - 0.85 * used * used));
  const forward = push * Math.max(0, 1 - body.speed / (1.04 * wish.top));
  const change = clamp((wanted - body.speed) / 0.09, -brake * left, forward * left);
  const middle = body.heading + 0.5 * rate * dt;
  const go = (body.speed + 0.5 * change * dt) * dt;
  body.x += go * cosine(middle);
  body.y += go * sine(middle);
  body.heading = wrapAngle(body.heading + rate * dt);
  body.speed = Math.max(0, body.speed + change * dt);
}
