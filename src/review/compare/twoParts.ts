import { apart, driftBetween, type Bracket } from '../../time/bracket.ts';
import { timeBetween, type Quantity } from '../../time/quantity.ts';

/** One stretch as it was run: out of one obstacle to out of the next, on the clock of its own run. */
export interface StretchRun {
  readonly from: Bracket;
  readonly to: Bracket;
  /** Metres of the dog's real line, with the 95 % band; null where it was not measured. */
  readonly length: Quantity | null;
}

/** Where the time between two runs of a stretch went. Positive: run B was slower. */
export interface TwoParts {
  readonly difference: Quantity;
  /** Seconds that go to the longer way; null unless both lines were measured. */
  readonly distance: Quantity | null;
  /** Seconds that go to the lower speed; null unless both lines were measured. */
  readonly speed: Quantity | null;
}

/** How one part answers to each of the four figures it is made of: its slopes. */
interface Part {
  readonly value: number;
  readonly byTimeA: number;
  readonly byTimeB: number;
  readonly byLengthA: number;
  readonly byLengthB: number;
}

interface Split {
  readonly a: StretchRun;
  readonly b: StretchRun;
  readonly distance: Part;
  readonly speed: Part;
}

/**
 * The time between two runs of one stretch, parted into distance and speed without remainder (design facts): with
 * lengths L, times t and v = L/t,
 *   distance = (L_B - L_A)(1/v_A + 1/v_B)/2,  speed = (1/v_B - 1/v_A)(L_A + L_B)/2.
 * Bands: times are held by their frames and add up; lengths are 95 % bands and add as squares; both go through the
 * slopes of the parts.
 */
export function twoParts(a: StretchRun, b: StretchRun): TwoParts {
  const difference = differenceOf(a, b);
  const split = splitOf(a, b);
  return {
    difference,
    distance: split && stated(split, split.distance),
    speed: split && stated(split, split.speed),
  };
}

/** Several stretches together. A part is withheld as soon as one of its stretches has no measured line. */
export interface PartsTogether {
  readonly difference: Quantity;
  readonly distance: Quantity | null;
  readonly speed: Quantity | null;
  /** How many of the stretches were measured in both runs. */
  readonly measured: number;
}

/**
 * Sums over stretches that follow on each other. An edge that ends one stretch and begins the next is counted once,
 * by what it changes in both; errors of length may be shared by all stretches of a run (one camera, one fit), so
 * within a run they add up, and the two runs add as squares.
 * @returns null where there is no stretch
 */
export function partsTogether(
  stretches: readonly (readonly [StretchRun, StretchRun])[],
): PartsTogether | null {
  const [first] = stretches;
  const last = stretches.at(-1);
  if (!first || !last) return null;
  const runs = stretches.map(([a, b]) => ({ difference: differenceOf(a, b), split: splitOf(a, b) }));
  const splits = runs.flatMap(({ split }) => split ?? []);
  const whole = splits.length === stretches.length;
  const times = [0, 1].map((i) =>
    edgesTogether(stretches.map((pair) => ({ run: pair[i as 0 | 1], slope: 1 }))),
  );
  return {
    difference: {
      value: runs.reduce((sum, { difference }) => sum + difference.value, 0),
      plusMinus: (times[0] ?? 0) + (times[1] ?? 0),
      unit: 's',
    },
    distance: whole ? together(splits, 'distance') : null,
    speed: whole ? together(splits, 'speed') : null,
    measured: splits.length,
  };
}

function differenceOf(a: StretchRun, b: StretchRun): Quantity {
  const tA = timeBetween(a.from, a.to);
  const tB = timeBetween(b.from, b.to);
  return { value: tB.value - tA.value, plusMinus: tA.plusMinus + tB.plusMinus, unit: 's' };
}

function splitOf(a: StretchRun, b: StretchRun): Split | null {
  const tA = timeBetween(a.from, a.to).value;
  const tB = timeBetween(b.from, b.to).value;
  const lA = a.length?.value ?? 0;
  const lB = b.length?.value ?? 0;
  // Marks out of order, or a line of no length, have no speed to part the time by.
  if (!(tA > 0 && tB > 0 && lA > 0 && lB > 0)) return null;
  const paceA = tA / lA;
  const paceB = tB / lB;
  const mean = (paceA + paceB) / 2;
  const middle = (lA + lB) / 2;
  return {
    a,
    b,
    distance: {
      value: (lB - lA) * mean,
      byTimeA: (lB - lA) / (2 * lA),
      byTimeB: (lB - lA) / (2 * lB),
      byLengthA: -mean - ((lB - lA) * paceA) / (2 * lA),
      byLengthB: mean - ((lB - lA) * paceB) / (2 * lB),
    },
    speed: {
      value: (paceB - paceA) * middle,
      byTimeA: -middle / lA,
      byTimeB: middle / lB,
      byLengthA: (paceA * middle) / lA + (paceB - paceA) / 2,
      byLengthB: (-paceB * middle) / lB + (paceB - paceA) / 2,
    },
  };
}

function stated({ a, b }: Split, part: Part): Quantity {
  const times =
    Math.abs(part.byTimeA) * timeBetween(a.from, a.to).plusMinus +
    Math.abs(part.byTimeB) * timeBetween(b.from, b.to).plusMinus;
  const lengths = Math.hypot(
    part.byLengthA * (a.length?.plusMinus ?? 0),
    part.byLengthB * (b.length?.plusMinus ?? 0),
  );
  return { value: part.value, plusMinus: times + lengths, unit: 's' };
}

function together(splits: readonly Split[], which: 'distance' | 'speed'): Quantity {
  const times =
    edgesTogether(splits.map((s) => ({ run: s.a, slope: s[which].byTimeA }))) +
    edgesTogether(splits.map((s) => ({ run: s.b, slope: s[which].byTimeB })));
  const lengths = (of: (s: Split) => number): number => splits.reduce((sum, s) => sum + Math.abs(of(s)), 0);
  return {
    value: splits.reduce((sum, s) => sum + s[which].value, 0),
    plusMinus:
      times +
      Math.hypot(
        lengths((s) => s[which].byLengthA * (s.a.length?.plusMinus ?? 0)),
        lengths((s) => s[which].byLengthB * (s.b.length?.plusMinus ?? 0)),
      ),
    unit: 's',
  };
}

/** How far a sum of stretch times, each with its slope, may be off through the edges it is made of, seconds. */
function edgesTogether(parts: readonly { readonly run: StretchRun; readonly slope: number }[]): number {
  let off = 0;
  let before: { readonly edge: Bracket; readonly slope: number } | null = null;
  for (const { run, slope } of parts) {
    const shared = before !== null && isSame(before.edge, run.from);
    if (before && !shared) off += Math.abs(before.slope) * half(before.edge);
    off += Math.abs((shared && before ? before.slope : 0) - slope) * half(run.from);
    off += Math.abs(slope) * (apart(run.from, run.to) + driftBetween(run.from, run.to));
    before = { edge: run.to, slope };
  }
  return before ? off + Math.abs(before.slope) * half(before.edge) : off;
}

const half = (b: Bracket): number => (b.to - b.from) / 2;
const isSame = (a: Bracket, b: Bracket): boolean =>
  a.from === b.from && a.to === b.to && a.angle?.id === b.angle?.id;
