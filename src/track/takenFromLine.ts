import type { Course, Obstacle, Step } from '../course/course.ts';
import type { Quantity } from '../time/quantity.ts';
import { gatesOf, throughGate, type Through } from './gates.ts';
import type { RealLine } from './realLine.ts';
import { everywhere } from './whereAt.ts';

type Direction = Step['direction'];

/** An obstacle that the line goes through. */
export interface TakenByLine {
  readonly obstacleId: string;
  readonly direction: Direction;
  /** The number it stands for in the order of the course, or why it stands for none. */
  readonly as:
    | { readonly place: number }
    /** `order`: a number asks for it, but not now. `direction`: only the other way. `notNumbered`: no number at all. */
    | { readonly wrong: 'order' | 'direction' | 'notNumbered' };
  /** Take-off, entry or first plane; landing, exit or second plane; seconds of the run. Null where it was not seen. */
  readonly in: Quantity | null;
  readonly out: Quantity | null;
  /** Through the (first) plane. */
  readonly through: Through;
}

export interface ProposedTaken {
  /** In the order in which they were taken. */
  readonly taken: readonly TakenByLine[];
  /** Numbers that the line does not go through, of those that it could. */
  readonly notSeen: readonly number[];
}

/** Longest that a dog stays in a tunnel, the poles or on a contact before it counts as two visits, seconds (ours). */
const longestInside = 15;

interface Crossing {
  readonly obstacle: Obstacle;
  readonly direction: Direction;
  readonly through: Through;
  readonly in: Quantity | null;
  readonly out: Quantity | null;
}

/**
 * What the line says was taken: each obstacle whose plane it goes through within its opening. Numbers follow from the
 * order of the course; what fits no number and is certain is told as wrong. Only proposals: numbers that the coach has
 * marked are left alone and appear neither as taken nor as not seen.
 * @param marked numbers that carry marks of the coach
 */
export function takenFromLine(line: RealLine, course: Course, marked: ReadonlySet<number>): ProposedTaken {
  const states = everywhere(line);
  const crossings = course.obstacles
    .flatMap((obstacle): Crossing[] => {
      if (!obstacle.stand) return [];
      const [first, second] = gatesOf(obstacle, obstacle.stand).map((gate) =>
        throughGate(line, states, gate).filter((t) => t.inside !== 'no'),
      );
      if (!first) return [];
      return second ? visits(obstacle, first, second) : first.map((t) => jumped(line, obstacle, t));
    })
    .sort((a, b) => a.through.at.value - b.through.at.value);
  const drawn = new Set(
    course.obstacles.filter((o) => o.stand && gatesOf(o, o.stand).length > 0).map((o) => o.id),
  );
  const steps = course.steps.filter((s) => drawn.has(s.obstacleId)).toSorted((a, b) => a.number - b.number);
  const numbers = inOrder(crossings, steps);
  const taken = crossings.flatMap((c, i): TakenByLine[] => {
    const place = numbers[i];
    if (place === undefined && c.through.inside !== 'surely') return [];
    if (place !== undefined && marked.has(place)) return [];
    const as = place === undefined ? { wrong: whyWrong(c, steps) } : { place };
    return [
      { obstacleId: c.obstacle.id, direction: c.direction, as, in: c.in, out: c.out, through: c.through },
    ];
  });
  const notSeen = steps.map((s) => s.number).filter((n) => !numbers.includes(n) && !marked.has(n));
  return { taken, notSeen };
}

const way = (t: Through): Direction => (t.forward ? 'forward' : 'reverse');

function jumped({ pushes }: RealLine, obstacle: Obstacle, through: Through): Crossing {
  const flight = pushes.flights.find((f) => f.from <= through.at.value && through.at.value <= f.to);
  const edge = (at: number): Quantity => ({ value: at, plusMinus: 2 * (flight?.unsure ?? 0), unit: 's' });
  return {
    obstacle,
    direction: way(through),
    through,
    in: flight ? edge(flight.from) : null,
    out: flight ? edge(flight.to) : null,
  };
}

/** In at one end and out at the other; an end that was not seen (out of the picture) makes no visit. */
function visits(obstacle: Obstacle, first: readonly Through[], second: readonly Through[]): Crossing[] {
  const pairUp = (ins: readonly Through[], outs: readonly Through[], forward: boolean): Crossing[] =>
    ins.flatMap((a): Crossing[] => {
      if (a.forward !== forward) return [];
      const after = ins.find((other) => other.at.value > a.at.value && other.forward === forward);
      const b = outs.find((t) => t.forward === forward && t.at.value > a.at.value);
      const fits = b && b.at.value - a.at.value <= longestInside && !(after && after.at.value < b.at.value);
      const sure = a.inside === 'surely' && b?.inside === 'surely' ? 'surely' : 'maybe';
      const direction = forward ? 'forward' : 'reverse';
      return fits ? [{ obstacle, direction, through: { ...a, inside: sure }, in: a.at, out: b.at }] : [];
    });
  return [...pairUp(first, second, true), ...pairUp(second, first, false)];
}

/**
 * The number each crossing stands for: of all ways to pick crossings in the order of the numbers, the one with most
 * numbers, certain ones before others (longest common subsequence).
 */
function inOrder(crossings: readonly Crossing[], steps: readonly Step[]): (number | undefined)[] {
  const fits = (c: Crossing, s: Step): number =>
    c.obstacle.id !== s.obstacleId || c.direction !== s.direction
      ? 0
      : c.through.inside === 'surely'
        ? 1
        : 0.9;
  const n = steps.length;
  const best = Array.from({ length: crossings.length + 1 }, () => new Array<number>(n + 1).fill(0));
  const at = (i: number, j: number): number => best[i]?.[j] ?? 0;
  for (let i = crossings.length - 1; i >= 0; i--)
    for (let j = n - 1; j >= 0; j--) {
      const [c, s] = [crossings[i], steps[j]];
      const row = best[i];
      const worth = c && s ? fits(c, s) : 0;
      if (row) row[j] = Math.max(at(i + 1, j), at(i, j + 1), worth > 0 ? worth + at(i + 1, j + 1) : 0);
    }
  const numbers = new Array<number | undefined>(crossings.length).fill(undefined);
  for (let i = 0, j = 0; i < crossings.length && j < n;) {
    const [c, s] = [crossings[i], steps[j]];
    const worth = c && s ? fits(c, s) : 0;
    if (s && worth > 0 && Math.abs(at(i, j) - worth - at(i + 1, j + 1)) < 1e-9) {
      numbers[i++] = s.number;
      j++;
    } else if (at(i + 1, j) >= at(i, j + 1)) i++;
    else j++;
  }
  return numbers;
}

function whyWrong(c: Crossing, steps: readonly Step[]): 'order' | 'direction' | 'notNumbered' {
  const same = steps.filter((s) => s.obstacleId === c.obstacle.id);
  if (same.length === 0) return 'notNumbered';
  return same.some((s) => s.direction === c.direction) ? 'order' : 'direction';
}
