import { obstacleAt, type Course, type Obstacle } from '../course/course.ts';
import { drawnSizes } from '../course/equipment.ts';
import { mannerOf } from '../course/kinds.ts';
import { reach } from '../course/planShapes.ts';
import { lengthOf, plainHeading } from '../course/pose.ts';
import { tunnelLine } from '../course/tunnelLine.ts';
import type { MeasuredRun, MeasuredStretch, MeasuredTaken, MeasuredTurn } from '../line/runnerFit.ts';
import { middle } from '../time/bracket.ts';
import { timeBetween, type Quantity } from '../time/quantity.ts';
import { lengthBetween, speedAt, waysOf, type Ways } from '../track/figures.ts';
import { gatesOf, type Gate } from '../track/gates.ts';
import type { RealLine } from '../track/realLine.ts';
import { jumpFigures, stretchFigures } from '../track/stretches.ts';
import { whereAt } from '../track/whereAt.ts';
import type { Analysis, Moment, Taken } from './analysis.ts';

/** Between two looks along a line, seconds. */
const look = 0.1;
/** A turn wider than this says nothing of how tightly she turns, metres. */
const widest = 6;
/** Slower than this she stands, m/s. */
const standing = 0.5;
/** How far the ends of equipment may lie from where they are drawn, metres (ours). */
const asBuilt = 0.1;
/** Crossed more obliquely than this, a bar says little of how far she flies, as a cosine. */
const leastAcross = 0.5;

/**
 * What a run tells of how the dog runs. How long she is on tunnels, poles and contacts needs marks in and out and a
 * drawn course; all else her measured line.
 * @param course built by its rule book
 * @param line her line on the ground; null where it was not measured
 */
export function measuredRun(
  { taken: all, countedTry, startLine }: Pick<Analysis, 'taken' | 'countedTry' | 'startLine'>,
  course: Course,
  line: RealLine | null,
  seed = 1,
): MeasuredRun {
  const taken = all.filter((t) => t.try === countedTry).toSorted((a, b) => a.place - b.place);
  const ways = line && waysOf(line, seed);
  const moved = startLine.find((s) => s.try === countedTry)?.moments.find((m) => m.part === 'step');
  return {
    stretches: ways ? [...runIn(ways, taken, moved?.moment ?? null), ...stretchesOf(ways, taken)] : [],
    taken: takenOf(taken, course, line),
    turns: ways ? turnsOf(ways, taken) : [],
  };
}

/** On the ground from out of one number to into the next, where the line has all of it. */
function stretchesOf(ways: Ways, taken: readonly Taken[]): MeasuredStretch[] {
  return taken.slice(1).flatMap((to, i): MeasuredStretch[] => {
    const from = taken[i];
    return from?.place === to.place - 1 ? between(ways, from.out, to.in, false) : [];
  });
}

/** From the first paw moved to into the first number: she began it standing. */
const runIn = (ways: Ways, [first]: readonly Taken[], step: Moment | null): MeasuredStretch[] =>
  first?.place === 1 ? between(ways, step, first.in, true) : [];

function between(ways: Ways, from: Moment | null, to: Moment | null, fromStand: boolean): MeasuredStretch[] {
  if (!from || !to) return [];
  const { line } = ways;
  const [a, b] = [middle(from.bracket), middle(to.bracket)];
  const covered = a >= line.from && b <= line.to && !line.gaps.some((g) => g.from < b && g.to > a);
  const metres = covered && b > a ? lengthBetween(ways, a, b) : null;
  if (!metres) return [];
  const seconds = timeBetween(from.bracket, to.bracket);
  const [turnDegrees, fastest] = [turned(line, a, b), fastestOn(line, a, b)];
  return [{ metres, seconds, turnDegrees, fastest, fromStand }];
}

const momentsOf = (from: number, to: number): readonly number[] => {
  const parts = Math.max(1, Math.ceil((to - from) / look));
  return Array.from({ length: parts + 1 }, (_, i) => from + ((to - from) * i) / parts);
};

/** Degrees that a line turns between two moments, to the left where positive. */
function turned(line: RealLine, from: number, to: number): number {
  let sum = 0;
  let last: number | null = null;
  for (const at of momentsOf(from, to)) {
    const here = whereAt(line, at);
    if (!here) continue;
    // Standing she has no heading.
    if (Math.hypot(here.vx, here.vy) < standing) continue;
    const heading = (Math.atan2(here.vy, here.vx) * 180) / Math.PI;
    if (last !== null) sum += plainHeading(heading - last);
    last = heading;
  }
  return sum;
}

/** Her speed where it is surely the highest. */
function fastestOn(line: RealLine, from: number, to: number): Quantity | null {
  let best: Quantity | null = null;
  for (const at of momentsOf(from, to)) {
    const speed = speedAt(line, at);
    if (speed && (!best || speed.value - speed.plusMinus > best.value - best.plusMinus)) best = speed;
  }
  return best;
}

function takenOf(taken: readonly Taken[], course: Course, line: RealLine | null): MeasuredTaken[] {
  const drawn = new Map(
    taken.flatMap((t) => {
      const o = obstacleAt(course, t.place);
      return o?.stand && o.kind === t.kind ? [[t.place, o] as const] : [];
    }),
  );
  const gates = new Map<number, Gate>();
  for (const [place, o] of drawn) {
    const gate = o.stand && mannerOf(o.kind) === 'jumped' ? gatesOf(o, o.stand)[0] : undefined;
    if (gate) gates.set(place, gate);
  }
  const jumps = new Map((line ? jumpFigures(line, taken, gates) : []).map((j) => [j.place, j]));
  return taken.map((t) => {
    const [o, gate, jump] = [drawn.get(t.place), gates.get(t.place), jumps.get(t.place)];
    const flown = (metres: Quantity | null | undefined, at: Taken['in']): Quantity | null =>
      line && gate && metres && at ? alongFlight(metres, line, middle(at.bracket), gate) : null;
    return {
      kind: t.kind,
      seconds: t.single ? null : t.on,
      metres: o ? throughIt(o) : null,
      takeOff: flown(jump?.takeOff, t.in),
      landing: flown(jump?.landing, t.out),
    };
  });
}

/** How long the way through a piece is as it is drawn; null where that is no way of its own. */
function throughIt(o: Obstacle): Quantity | null {
  const told = (value: number): Quantity => ({ value, plusMinus: asBuilt, unit: 'm' });
  switch (o.kind) {
    case 'tunnel':
      return o.stand ? told(lengthOf(tunnelLine(o.stand, drawnSizes(o.kind, o.sizes).tunnelLength))) : null;
    case 'weavePoles':
    case 'aFrame':
    case 'dogWalk':
      return told(2 * reach(o));
    default:
      return null;
  }
}

/** Metres before a bar's plane as metres along the way she flies. */
function alongFlight(metres: Quantity, line: RealLine, at: number, { pose }: Gate): Quantity | null {
  const here = whereAt(line, at);
  const angle = (pose.headingDegrees * Math.PI) / 180;
  const speed = here ? Math.hypot(here.vx, here.vy) : 0;
  if (!here || speed < 1e-6) return null;
  const across = Math.abs(here.vx * Math.cos(angle) + here.vy * Math.sin(angle)) / speed;
  if (across < leastAcross) return null;
  return { value: metres.value / across, plusMinus: metres.plusMinus / across, unit: 'm' };
}

/** Where each stretch bends most sharply, if that is a turn at all. */
function turnsOf(ways: Ways, taken: readonly Taken[]): MeasuredTurn[] {
  return stretchFigures(ways, taken, new Map()).flatMap(({ bend }): MeasuredTurn[] => {
    const sharp = bend ? Math.abs(bend.value) : 0;
    const speed = bend && speedAt(ways.line, bend.at);
    if (!bend || !speed || sharp - bend.plusMinus < 1 / widest) return [];
    return [{ speed, radius: { value: 1 / sharp, plusMinus: bend.plusMinus / sharp ** 2, unit: 'm' } }];
  });
}
