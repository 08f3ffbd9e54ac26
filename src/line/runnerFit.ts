import type { ObstacleKind } from '../course/kinds.ts';
import type { Quantity } from '../time/quantity.ts';
import { figureBounds } from './dog.ts';
import { meanOf } from './meanBand.ts';
import { assumedRunner, type Runner } from './runner.ts';

/** A way on the ground, from one obstacle to the next or from where she waited to the first. */
export interface MeasuredStretch {
  readonly metres: Quantity;
  readonly seconds: Quantity;
  readonly turnDegrees: number;
  /** Her speed where it was highest; null where only the whole is known, which is less. */
  readonly fastest: Quantity | null;
  /** True where she began it standing. */
  readonly fromStand: boolean;
}

/** An obstacle taken: how long she was on it, and how far she ran on it or flew before and behind the bar. */
export interface MeasuredTaken {
  readonly kind: ObstacleKind;
  readonly seconds: Quantity | null;
  readonly metres: Quantity | null;
  readonly takeOff: Quantity | null;
  readonly landing: Quantity | null;
}

/** The tightest of a turn on the ground. */
export interface MeasuredTurn {
  readonly speed: Quantity;
  readonly radius: Quantity;
}

/** What was measured of one run of a dog: what is not known is left out. */
export interface MeasuredRun {
  readonly stretches: readonly MeasuredStretch[];
  readonly taken: readonly MeasuredTaken[];
  readonly turns: readonly MeasuredTurn[];
}

/** The figures that runs can tell, in the order in which they are told. */
export const fittedFigures = [
  ...(['topSpeed', 'pickUp', 'grip', 'leastRadius', 'takeOff', 'landing'] as const),
  ...(['tunnelSpeed', 'weaveSpeed', 'aFrameSpeed', 'dogWalkSpeed'] as const),
] as const;
export type FittedFigure = (typeof fittedFigures)[number];

/** One figure as the runs have it, in the unit of `assumedRunner`. */
export interface Fitted {
  readonly value: number;
  /** Half of what holds the dog's mean nineteen times in twenty; null where it is assumed. */
  readonly plusMinus: number | null;
  /** How often it was measured. */
  readonly count: number;
  /** How often it has to be. */
  readonly needed: number;
  readonly from: 'runs' | 'assumed';
}

/** Measured less often than this a figure stays as assumed. */
const least = 3;
/** Of turns the sharpest third counts, of straight stretches the fastest: in the others she may have had more to give. */
const foremost = 1 / 3;
const leastOfAll = least / foremost;

/** How often what has to be measured before it counts for the dog. */
export const fitNeeds = { straights: leastOfAll, turns: leastOfAll, each: least } as const;
/** A stretch that turns by less is run straight, degrees, and one that is shorter says little of her top speed, metres. */
const straight = { degrees: 20, metres: 3 } as const;

/**
 * A dog's figures fitted to her runs. Speeds are metres over seconds of each piece; picking up is the steady rate with
 * which a run-in from standing takes so long (v / 2a + s / v = t where top speed is reached, s = a t² / 2 where it is
 * not); top speed is that of the fastest straight stretches, grip v² / r at the sharpest of her turns. Each figure is
 * the mean of what was measured; its band is that of the mean by Student's t, widened by what one measurement is off
 * by, since a fit of the camera errs alike in all. What no dog does is a slip and is left out. See-saws tell no speed,
 * since how long she waits on one is not measured.
 */
export function fitRunner(runs: readonly MeasuredRun[]): Readonly<Record<FittedFigure, Fitted>> {
  const taken = runs.flatMap((r) => r.taken);
  const stretches = runs.flatMap((r) => r.stretches);
  const turns = runs.flatMap((r) => r.turns);
  const over = (kind: ObstacleKind): Quantity[] =>
    taken.flatMap((t) => (t.kind === kind && t.metres && t.seconds ? [speedOf(t.metres, t.seconds)] : []));
  const open = stretches.filter(
    (s) => !s.fromStand && Math.abs(s.turnDegrees) < straight.degrees && s.metres.value >= straight.metres,
  );
  const topSpeed = fittedToEdge(
    'topSpeed',
    open.map((s) => s.fastest ?? speedOf(s.metres, s.seconds)),
    (a, b) => b - a,
  );
  const standing = stretches.filter((s) => s.fromStand && Math.abs(s.turnDegrees) < straight.degrees);
  return {
    topSpeed,
    pickUp: fitted(
      'pickUp',
      standing.flatMap((s) => pickUpOf(s, topSpeed.value)),
    ),
    grip: fittedToEdge('grip', turns.map(sideways), (a, b) => b - a),
    leastRadius: fittedToEdge(
      'leastRadius',
      turns.map((t) => t.radius),
      (a, b) => a - b,
    ),
    takeOff: fitted(
      'takeOff',
      taken.flatMap((t) => t.takeOff ?? []),
    ),
    landing: fitted(
      'landing',
      taken.flatMap((t) => t.landing ?? []),
    ),
    tunnelSpeed: fitted('tunnelSpeed', over('tunnel')),
    weaveSpeed: fitted('weaveSpeed', over('weavePoles')),
    aFrameSpeed: fitted('aFrameSpeed', over('aFrame')),
    dogWalkSpeed: fitted('dogWalkSpeed', over('dogWalk')),
  };
}

/** The figures that the runs are enough for, as a dog keeps her own. */
export function ownFigures(fit: Readonly<Record<FittedFigure, Fitted>>): Partial<Runner> {
  const own = fittedFigures.filter((figure) => fit[figure].from === 'runs');
  return Object.fromEntries(own.map((figure) => [figure, Math.round(fit[figure].value * 100) / 100]));
}

const fitted = (figure: FittedFigure, measured: readonly Quantity[]): Fitted => {
  const used = believed(figure, measured);
  return told(figure, used, used.length, least);
};

/** A figure of which only the foremost third says how far she can go. */
function fittedToEdge(
  figure: FittedFigure,
  measured: readonly Quantity[],
  order: (a: number, b: number) => number,
): Fitted {
  const used = believed(figure, measured).sort((a, b) => order(a.value, b.value));
  return told(figure, used.slice(0, Math.round(used.length * foremost)), used.length, leastOfAll);
}

/** What a dog can do, and is measured with a plus or minus. */
function believed(figure: FittedFigure, measured: readonly Quantity[]): Quantity[] {
  const { lowest, highest } = figureBounds(figure);
  return measured.filter(
    (q) => q.value >= lowest && q.value <= highest && Number.isFinite(q.plusMinus) && q.plusMinus >= 0,
  );
}

function told(figure: FittedFigure, used: readonly Quantity[], count: number, needed: number): Fitted {
  if (count < needed)
    return { value: assumedRunner[figure].usual, plusMinus: null, count, needed, from: 'assumed' };
  const { mean, plusMinus } = meanOf(used);
  return { value: mean, plusMinus, count, needed, from: 'runs' };
}

/** Metres over seconds; their relative errors add up. */
function speedOf(metres: Quantity, seconds: Quantity): Quantity {
  const value = metres.value / seconds.value;
  const off = metres.plusMinus / metres.value + seconds.plusMinus / seconds.value;
  return { value, plusMinus: value * off, unit: 'm/s' };
}

/** Sideways acceleration v² / r, m/s². */
function sideways({ speed, radius }: MeasuredTurn): Quantity {
  const value = speed.value ** 2 / radius.value;
  const off = 2 * (speed.plusMinus / speed.value) + radius.plusMinus / radius.value;
  return { value, plusMinus: value * off, unit: '1' };
}

/** The steady pick-up of a run-in; none where it was run faster than top speed allows at any. */
function pickUpOf({ metres, seconds }: MeasuredStretch, topSpeed: number): Quantity[] {
  const [s, t] = [metres.value, seconds.value];
  const lost = t - s / topSpeed;
  const reached = topSpeed / (2 * lost);
  const value = lost > 0 && (topSpeed * topSpeed) / (2 * reached) <= s ? reached : (2 * s) / (t * t);
  const off = metres.plusMinus / s + (2 * seconds.plusMinus) / t;
  return lost > 0 ? [{ value, plusMinus: value * off, unit: '1' }] : [];
}
