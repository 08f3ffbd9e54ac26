/**
 * Every number of the models, each with where it comes from.
 * `assumed`: no published figure was at hand; chosen to look right to a coach, never to suit a measurement.
 */

interface Sourced {
  readonly value: number;
  readonly unit: string;
  readonly from: string;
}

function assumed(value: number, unit: string, why: string): Sourced {
  return { value, unit, from: `assumed: ${why}` };
}

function published(value: number, unit: string, source: string): Sourced {
  return { value, unit, from: source };
}

export const gravity = published(9.81, 'm/s2', 'standard gravity, rounded');
export const speedOfSound = published(343, 'm/s', 'dry air at 20 degrees C');

export const dogParameters = {
  withers: assumed(0.52, 'm', 'a large dog, withers 48 cm or more'),
  topSpeed: assumed(
    7.0,
    'm/s',
    'gallop of a fast agility dog; jump speed vs height varies by dog (Birch 2016)',
  ),
  startAcceleration: assumed(9.0, 'm/s2', 'from a stay, falling linearly to 0 at top speed'),
  braking: assumed(7.5, 'm/s2', 'on grass'),
  lateralAcceleration: assumed(9.0, 'm/s2', 'grip on dry grass, a little under 1 g'),
  weaveLateralAcceleration: assumed(14.5, 'm/s2', 'pushing off at each pole'),
  smallestTurn: assumed(0.75, 'm', 'radius of a wrap on the ground'),
  steeringTime: assumed(0.11, 's', 'time constant of turning toward the line she wants'),
  reactionMean: assumed(0.26, 's', 'cue to change of movement; person 0.3, dog faster (weak sources)'),
  reactionSpread: assumed(0.035, 's', 'between dogs'),
  strideTime: assumed(0.39, 's', 'one gallop stride'),
  collectedSpeed: assumed(4.0, 'm/s', 'before a jump with a turn of 150 degrees'),
  takeOffExtended: assumed(1.85, 'm', 'centre of mass to bar, straight on at top speed'),
  takeOffCollected: assumed(1.1, 'm', 'the same, collected'),
  landingLoss: assumed(0.95, 'share', 'speed kept through a landing'),
  commitDistance: assumed(4.3, 'm', 'she will take it, without help, from here'),
  weaveSpeed: assumed(2.75, 'm/s', 'centre of mass along the poles, single-step style'),
  weaveSwing: assumed(0.07, 'm', 'centre of mass to each side of the poles'),
  tunnelSpeed: assumed(5.6, 'm/s', 'inside a tunnel'),
  frameSpeed: assumed(4.2, 'm/s', 'over an A-frame'),
  walkSpeed: published(4.9, 'm/s', 'DiMichele et al. 2024: 2.26 s for 10.8-11.4 m of dog walk'),
  sawSpeed: assumed(3.3, 'm/s', 'up a see-saw; she waits while it tips'),
  standingCentre: assumed(0.42, 'm', 'height of the centre of mass when standing'),
  flightClearance: assumed(0.27, 'm', 'centre of mass above the bar at the top of the flight'),
  launchCentre: assumed(0.5, 'm', 'height of the centre of mass at take-off and landing'),
} as const;

export const handlerParameters = {
  topSpeed: assumed(5.8, 'm/s', 'a fit club competitor'),
  acceleration: assumed(4.2, 'm/s2', 'on grass, speeding up'),
  braking: assumed(6.5, 'm/s2', 'on grass, slowing down or changing direction'),
  turnRate: assumed(7.0, 'rad/s', 'feet and shoulders, fastest'),
  height: assumed(1.7, 'm', 'stature'),
  stepLength: assumed(1.15, 'm', 'a running step'),
} as const;

/** The bare number of a parameter. */
export function valueOf(parameter: Sourced): number {
  return parameter.value;
}
