/**
 * Every number of the models, each with where it comes from.
 * `assumed`: no published figure was at hand; chosen to look right to a coach, never to suit a measurement.
 */

export interface Sourced {
  readonly value: number;
  readonly unit: string;
  readonly from: string;
  /** Published range, where there is one; the value lies in it. */
  readonly range?: readonly [number, number];
}

function assumed(value: number, unit: string, why: string): Sourced {
  return { value, unit, from: `assumed: ${why}` };
}

function published(value: number, unit: string, source: string, range?: readonly [number, number]): Sourced {
  return { value, unit, from: source, ...(range ? { range } : {}) };
}

export const gravity = published(9.81, 'm/s2', 'standard gravity, rounded', [9.78, 9.84]);
export const speedOfSound = published(343, 'm/s', 'dry air at 20 degrees C', [340, 346]);

export const dogParameters = {
  withers: published(
    0.52,
    'm',
    'size L, withers 48 cm or more (FCI 2023 as told by a member body)',
    [0.48, 0.75],
  ),
  topSpeed: assumed(6.6, 'm/s', 'gallop of a fast agility dog'),
  topSpeedSpread: assumed(0.05, 'share', 'between dogs'),
  startAcceleration: assumed(9.0, 'm/s2', 'from a stay, falling linearly to 0 near top speed'),
  braking: assumed(7.5, 'm/s2', 'on grass'),
  lateralAcceleration: assumed(9.0, 'm/s2', 'grip on dry grass, a little under 1 g'),
  weaveLateralAcceleration: assumed(21, 'm/s2', 'pushing off at each pole, most at the entry'),
  tunnelLateralAcceleration: assumed(11.0, 'm/s2', 'running up the wall of a bent tunnel'),
  smallestTurn: assumed(0.75, 'm', 'radius of a wrap on the ground'),
  steeringTime: assumed(0.11, 's', 'time constant of turning toward the line she wants'),
  reactionMean: assumed(0.26, 's', 'cue to change of movement: person about 0.3, dog faster (weak sources)'),
  reactionSpread: assumed(0.035, 's', 'between dogs'),
  reactionLeast: published(0.1, 's', 'sprint false-start limit (Pain, Hibbs 2007)', [0.085, 0.1]),
  visualField: published(245, 'degrees', 'total visual field of dogs (secondary pages)', [240, 250]),
  preparation: assumed(0.16, 's', 'before take-off, from when on the jump is prepared and no cue changes it'),
  strideTime: assumed(0.39, 's', 'one gallop stride'),
  collectedSpeed: assumed(4.0, 'm/s', 'before a jump with a turn of 130 degrees or more'),
  takeOffExtended: assumed(1.85, 'm', 'centre of mass to bar, straight on at speed'),
  takeOffCollected: assumed(1.1, 'm', 'the same, collected'),
  landingLoss: assumed(0.95, 'share', 'speed kept through a landing'),
  commitDistance: assumed(4.2, 'm', 'she will take it, without help, from here'),
  weaveSpeed: assumed(2.75, 'm/s', 'centre of mass along the poles, single-step style'),
  weaveSwing: assumed(0.065, 'm', 'centre of mass to each side of the poles'),
  weaveEntrySpeed: assumed(3.1, 'm/s', 'at the first pole'),
  tunnelSpeed: assumed(5.6, 'm/s', 'inside a straight tunnel'),
  frameSpeed: assumed(4.2, 'm/s', 'over an A-frame'),
  walkSpeed: published(4.9, 'm/s', 'DiMichele et al. 2024: 2.26 s for 10.8-11.4 m of dog walk', [4.8, 5.0]),
  sawSpeed: assumed(3.3, 'm/s', 'up a see-saw; she waits while it tips'),
  sawTime: assumed(0.5, 's', 'a see-saw tipping over'),
  standingCentre: assumed(0.42, 'm', 'height of the centre of mass when standing'),
  flightClearance: assumed(0.27, 'm', 'centre of mass above the bar at the top of the flight'),
  clearanceSpread: assumed(0.03, 'm', 'from jump to jump'),
  clearanceLostLate: assumed(0.07, 'm', 'when she learns of a turn while preparing or in the air'),
  clearanceStruck: assumed(0.15, 'm', 'below this the bar is knocked'),
  launchCentre: assumed(0.5, 'm', 'height of the centre of mass at take-off and landing'),
  runByChance: assumed(0.45, 'share', 'she runs by when support leaves before she is committed'),
  stopChance: assumed(0.004, 'share', 'she stops before an obstacle'),
  wrongEntryAngle: assumed(0.9, 'rad', 'approach to weave poles at which half of the entries fail'),
  popOutChance: assumed(0.03, 'share', 'she leaves the poles early'),
  missedContactChance: assumed(0.05, 'share', 'she leaves a contact obstacle above its zone'),
  breakHazard: assumed(0.035, '1/s', 'of breaking a stay while the handler leads out'),
  breakAtFake: assumed(0.12, 'share', 'of breaking at a fake'),
} as const;

/** Share of the grip on dry grass that a ring's surface gives, for turning, braking and pushing off alike. */
export const footings = {
  dryGrass: assumed(1, 'share', 'the surface that the other figures are for'),
  wetGrass: assumed(0.72, 'share', 'slippery after rain'),
  sand: assumed(0.85, 'share', 'a riding arena, loose on top'),
  artificialTurf: assumed(1.05, 'share', 'a hall with a good floor'),
} as const;

export type Footing = keyof typeof footings;

export const handlerParameters = {
  topSpeed: assumed(5.8, 'm/s', 'a fit club competitor'),
  acceleration: assumed(4.2, 'm/s2', 'on grass, speeding up'),
  braking: assumed(6.5, 'm/s2', 'on grass, slowing down or changing direction'),
  turnRate: assumed(7.0, 'rad/s', 'feet and shoulders, fastest'),
  height: assumed(1.7, 'm', 'stature'),
} as const;

/** The bare number of a parameter. */
export function valueOf(parameter: Sourced): number {
  return parameter.value;
}
