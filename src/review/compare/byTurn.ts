import { timeBetween, type Quantity } from '../../time/quantity.ts';
import { middle } from '../../time/bracket.ts';
import { everywhere } from '../../track/whereAt.ts';
import type { RealLine } from '../../track/realLine.ts';
import type { Analysis } from '../analysis.ts';

/** How far the dog's line turns on a stretch, out to out: under 45°, from there to 135°, and more (classes of ours). */
export const turnClasses = ['straight', 'turn', 'back'] as const;
export type TurnClass = (typeof turnClasses)[number];

const turnFrom = 45;
const backFrom = 135;

/** A run whose dog's line is measured. */
export interface RunWithLine {
  readonly analysis: Pick<Analysis, 'taken' | 'countedTry'>;
  readonly line: RealLine;
  /** Metres of it up to the out of each number, by that number. */
  readonly lengths: ReadonlyMap<number, Quantity>;
}

export interface TurnSpeed {
  readonly stretches: number;
  readonly speed: Quantity;
}

export interface TurnRow {
  readonly turn: TurnClass;
  readonly runs: readonly (TurnSpeed | null)[];
}

/**
 * What runs of any courses share where their lines are measured: the speed on stretches by how far the line turns on
 * them, all metres over all seconds. Lengths of one run may share an error and times their edges, so both add up.
 * A class stands there where at least two runs have stretches of it; null for a run without a line.
 */
export function speedsByTurn(runs: readonly (RunWithLine | null)[]): readonly TurnRow[] {
  const each = runs.map((run) => (run ? stretchesOf(run) : []));
  return turnClasses
    .map((turn) => ({ turn, runs: each.map((list) => speedOf(list.filter((s) => s.turn === turn))) }))
    .filter((row) => row.runs.filter((r) => r !== null).length >= 2);
}

interface Stretch {
  readonly turn: TurnClass;
  readonly length: Quantity;
  readonly time: Quantity;
}

function stretchesOf({ analysis: { taken, countedTry }, line, lengths }: RunWithLine): readonly Stretch[] {
  const outs = new Map(
    taken.flatMap((t) => (t.try === countedTry && t.out ? [[t.place, t.out.bracket] as const] : [])),
  );
  return [...lengths].flatMap(([place, length]) => {
    const [a, b] = [outs.get(place - 1), outs.get(place)];
    if (!a || !b) return [];
    const time = timeBetween(a, b);
    if (!(time.value > 0 && length.value > 0)) return [];
    return [{ turn: classOf(turnedBetween(line, middle(a), middle(b))), length, time }];
  });
}

function speedOf(stretches: readonly Stretch[]): TurnSpeed | null {
  if (stretches.length === 0) return null;
  const sum = (of: (s: Stretch) => number): number => stretches.reduce((total, s) => total + of(s), 0);
  const [metres, seconds] = [sum((s) => s.length.value), sum((s) => s.time.value)];
  const value = metres / seconds;
  const share = sum((s) => s.length.plusMinus) / metres + sum((s) => s.time.plusMinus) / seconds;
  return { stretches: stretches.length, speed: { value, plusMinus: value * share, unit: 'm/s' } };
}

const classOf = (degrees: number): TurnClass =>
  degrees < turnFrom ? 'straight' : degrees < backFrom ? 'turn' : 'back';

/** Degrees by which the line turns between two moments, to one side against the other; more than 180 on a wrap. */
function turnedBetween(line: RealLine, from: number, to: number): number {
  const within = everywhere(line).filter((_, i) => {
    const at = line.times[i] ?? NaN;
    return at >= from && at <= to;
  });
  const radians = within.slice(1).reduce((turned, b, i) => {
    const a = within[i] ?? b;
    return turned + Math.atan2(a.vx * b.vy - a.vy * b.vx, a.vx * b.vx + a.vy * b.vy);
  }, 0);
  return Math.abs((radians * 180) / Math.PI);
}
