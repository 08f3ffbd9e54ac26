import type { GroundPoint } from '../course/points.ts';
import { lengthOf } from '../course/pose.ts';
import type { Taken } from '../review/analysis.ts';
import { middle } from '../time/bracket.ts';
import { timeBetween, type Quantity } from '../time/quantity.ts';
import { varianceAlong, z95 } from './bands.ts';
import { curvatureAt, lengthBetween, offLine, type OffLine, type Ways } from './figures.ts';
import { unsureOf } from './flights.ts';
import type { Gate } from './gates.ts';
import { overLine, type OverLine } from './overLine.ts';
import type { RealLine } from './realLine.ts';
import { whereAt } from './whereAt.ts';

type Edge = Pick<Taken, 'place' | 'in' | 'out'>;

/** How sharply she turned where it was sharpest: 1/m, to the left where positive. */
export interface Bend {
  readonly at: number;
  readonly value: number;
  readonly plusMinus: number;
}

/** One stretch of the real line, out to out as splits are. */
export interface StretchFigures {
  readonly from: number;
  readonly to: number;
  /** Seconds of the run. */
  readonly begins: number;
  readonly ends: number;
  readonly time: Quantity;
  /** Metres; null where the line does not reach over all of it. */
  readonly length: Quantity | null;
  /** m/s, length over time. */
  readonly speed: Quantity | null;
  readonly bend: Bend | null;
  /** Where she was furthest from the wanted line; null where there is none. */
  readonly off: (OffLine & { readonly at: number }) | null;
  /** How much longer her way was than the wanted one, and what that took; null where there is none, or not all of it. */
  readonly over: OverLine | null;
  /** True where part of it was not marked (a tunnel, out of the picture): its length is a guess there. */
  readonly gap: boolean;
  /** True where it leads between weave poles: how far she swings from side to side there is a guess. */
  readonly weave: boolean;
}

/** A stretch may reach beyond the line by so much, seconds: the last mark is rarely on the last frame. */
const beyond = 0.25;
/** Between two looks along a stretch, seconds. */
const look = 0.1;

/**
 * Every stretch between two numbers that follow each other and that the line covers.
 * @param wanted the part of the wanted line that leads to a number (wantedParts)
 */
export function stretchFigures(
  ways: Ways,
  taken: readonly Edge[],
  wanted: ReadonlyMap<number, readonly GroundPoint[]>,
): readonly StretchFigures[] {
  const { line } = ways;
  return taken.slice(1).flatMap((to, i): StretchFigures[] => {
    const from = taken[i];
    if (!from?.out || !to.out) return [];
    const [begins, ends] = [middle(from.out.bracket), middle(to.out.bracket)];
    if (!(ends > begins) || begins < line.from - beyond || ends > line.to + beyond) return [];
    const part = wanted.get(to.place);
    const time = timeBetween(from.out.bracket, to.out.bracket);
    const length = lengthBetween(ways, begins, ends);
    const [a, b] = [Math.max(begins, line.from), Math.min(ends, line.to)];
    const moments = Array.from({ length: Math.max(1, Math.ceil((b - a) / look)) }, (_, k) => a + look * k);
    return [
      {
        from: from.place,
        to: to.place,
        begins,
        ends,
        time,
        length,
        speed: length && speedOver(line, length, time, from.out.bracket, to.out.bracket),
        bend: sharpest(ways, moments),
        off: part && from.place === to.place - 1 ? furthest(line, moments, part) : null,
        over: part && from.place === to.place - 1 ? overLine(ways, begins, ends, part, time) : null,
        gap: line.gaps.some((g) => g.from < ends && g.to > begins),
        weave: line.weaves.some((w) => w.from < ends && w.to > begins),
      },
    ];
  });
}

/**
 * Length over time. A moment that is off makes the way longer or shorter too, at the speed she has there: what is left
 * of its error is her speed there less her mean speed.
 */
function speedOver(
  line: RealLine,
  length: Quantity,
  time: Quantity,
  from: Parameters<typeof unsureOf>[0],
  to: Parameters<typeof unsureOf>[0],
): Quantity {
  const mean = length.value / time.value;
  const edge = (bracket: typeof from): number => {
    const here = whereAt(line, Math.max(line.from, Math.min(line.to, middle(bracket))));
    const there = here ? Math.hypot(here.vx, here.vy) : mean;
    return ((there - mean) * unsureOf(bracket)) / time.value;
  };
  const own = length.plusMinus / time.value;
  return { value: mean, plusMinus: Math.hypot(own, z95 * Math.hypot(edge(from), edge(to))), unit: 'm/s' };
}

const sure = ({ value, plusMinus }: Pick<Bend, 'value' | 'plusMinus'>): number => Math.abs(value) - plusMinus;

function sharpest(ways: Ways, moments: readonly number[]): Bend | null {
  let best: Bend | null = null;
  for (const at of moments) {
    if (ways.line.gaps.some((g) => at > g.from && at < g.to)) continue;
    const bend = curvatureAt(ways, at);
    // Not the sharpest by chance, but the one that is surely the sharpest.
    if (bend && (!best || sure(bend) > sure(best))) best = { at, ...bend };
  }
  return best;
}

function furthest(
  line: RealLine,
  moments: readonly number[],
  wanted: readonly GroundPoint[],
): (OffLine & { readonly at: number }) | null {
  const long = lengthOf(wanted);
  let best: (OffLine & { at: number }) | null = null;
  for (const at of moments) {
    const off = offLine(line, at, wanted);
    // Beyond its ends the wanted line says nothing.
    if (!off || off.along <= 1e-6 || off.along >= long - 1e-6) continue;
    if (!best || Math.abs(off.value) > Math.abs(best.value)) best = { ...off, at };
  }
  return best;
}

/** Take-off and landing of a jump, as the marked point had it: metres before and behind the plane of the bar. */
export interface JumpFigures {
  readonly place: number;
  readonly takeOff: Quantity | null;
  readonly landing: Quantity | null;
}

/** How far before and behind their bars she took off and landed. @param gates the plane of each jump, by its number */
export function jumpFigures(
  line: RealLine,
  taken: readonly Edge[],
  gates: ReadonlyMap<number, Gate>,
): readonly JumpFigures[] {
  return taken.flatMap((t): JumpFigures[] => {
    const gate = gates.get(t.place);
    if (!gate) return [];
    const takeOff = t.in && fromPlane(line, middle(t.in.bracket), unsureOf(t.in.bracket), gate);
    const landing = t.out && fromPlane(line, middle(t.out.bracket), unsureOf(t.out.bracket), gate);
    return takeOff || landing ? [{ place: t.place, takeOff, landing }] : [];
  });
}

function fromPlane(line: RealLine, at: number, unsure: number, { pose }: Gate): Quantity | null {
  const here = whereAt(line, at);
  if (!here) return null;
  const angle = (pose.headingDegrees * Math.PI) / 180;
  const [nx, ny] = [Math.cos(angle), Math.sin(angle)];
  const metres = Math.abs((here.x - pose.x) * nx + (here.y - pose.y) * ny);
  const late = unsure * (here.vx * nx + here.vy * ny);
  return {
    value: metres,
    plusMinus: z95 * Math.sqrt(Math.max(0, varianceAlong([nx, ny], here.cov)) + late * late),
    unit: 'm',
  };
}
