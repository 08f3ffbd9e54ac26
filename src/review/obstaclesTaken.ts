import { obstacleAt, type Course } from '../course/course.ts';
import { longestOn, type ObstacleKind } from '../course/kinds.ts';
import { apart, driftBetween, middle, widened, type Bracket } from '../time/bracket.ts';
import { timeBetween, type Quantity } from '../time/quantity.ts';
import type { Split, Warning } from './analysis.ts';
import type { Mark, TakenMark } from './marks.ts';
import { placed, type Clocks, type Placed } from './moments.ts';

/** An obstacle taken with its edges on the clock of the run. */
export interface TakenPlaced {
  readonly place: number;
  readonly try: number;
  readonly obstacleId: string | null;
  readonly kind: ObstacleKind;
  readonly nickname: string;
  readonly in: Placed | null;
  readonly out: Placed | null;
  readonly single: boolean;
  readonly on: Quantity | null;
}

/** The kind of equipment that carries a number; unknown where the course does not say. */
export function kindAt(course: Course, place: number | undefined): ObstacleKind {
  return (place === undefined ? undefined : obstacleAt(course, place)?.kind) ?? 'unknown';
}

/**
 * Gathers the marks of obstacles taken by try and place, in that order. Where an edge was marked twice the later
 * one counts (an entry missed and taken again), and a warning says so.
 */
export function obstaclesTaken(
  course: Course,
  marks: readonly Mark[],
  clocks: Clocks,
): { taken: TakenPlaced[]; warnings: Warning[] } {
  const warnings: Warning[] = [];
  const groups = new Map<string, { place: number; try: number; edges: Map<TakenMark['edge'], Placed> }>();
  for (const mark of marks) {
    if (mark.kind !== 'taken') continue;
    const here = placed(mark, kindAt(course, mark.place), clocks);
    if (!here) continue;
    const key = `${mark.try}/${mark.place}`;
    const group = groups.get(key) ?? {
      place: mark.place,
      try: mark.try,
      edges: new Map<TakenMark['edge'], Placed>(),
    };
    groups.set(key, group);
    const already = group.edges.get(mark.edge);
    if (already)
      warnings.push({ warning: 'repeatedEdge', place: mark.place, try: mark.try, edge: mark.edge });
    if (!already || middle(already.bracket) < middle(here.bracket)) group.edges.set(mark.edge, here);
  }
  const taken = [...groups.values()]
    .map((g) => takenOf(course, g.place, g.try, g.edges))
    .sort((a, b) => a.try - b.try || a.place - b.place);
  for (const t of taken) {
    if (t.in && t.out && isBefore(t.out.bracket, t.in.bracket)) {
      warnings.push({ warning: 'inAfterOut', place: t.place, try: t.try });
    }
  }
  return { taken, warnings };
}

function takenOf(
  course: Course,
  place: number,
  attempt: number,
  edges: ReadonlyMap<TakenMark['edge'], Placed>,
): TakenPlaced {
  const obstacle = obstacleAt(course, place);
  const kind = obstacle?.kind ?? 'unknown';
  const whole = edges.get('whole');
  const enter = edges.get('in') ?? (whole ? further(whole, -longestOn(kind)) : null);
  const leave = edges.get('out') ?? (whole ? further(whole, longestOn(kind)) : null);
  const bothMarked = edges.has('in') && edges.has('out');
  return {
    place,
    try: attempt,
    obstacleId: obstacle?.id ?? null,
    kind,
    nickname: obstacle?.nickname ?? '',
    in: enter,
    out: leave,
    single: whole !== undefined && !bothMarked,
    on: bothMarked && enter && leave ? timeBetween(enter.bracket, leave.bracket) : null,
  };
}

/** Whether all of one bracket lies before the other, however their clips were lined up. */
function isBefore(a: Bracket, b: Bracket): boolean {
  return a.to + apart(a, b) + driftBetween(a, b) < b.from;
}

/** One mark lies somewhere between in and out: the edge is at most `by` seconds from it. */
function further(p: Placed, by: number): Placed {
  return { ...p, bracket: widened(p.bracket, by) };
}

/** Splits of one try, out to out, from the start of the clock; a number that was not taken is bridged and warned of. */
export function splitsOf(
  taken: readonly TakenPlaced[],
  attempt: number,
  start: Bracket | null,
): { splits: Split[]; warnings: Warning[] } {
  const splits: Split[] = [];
  const warnings: Warning[] = [];
  let before: TakenPlaced | null = null;
  let expected = 1;
  for (const t of taken.filter((x) => x.try === attempt)) {
    for (; expected < t.place; expected++)
      warnings.push({ warning: 'notTaken', place: expected, try: attempt });
    expected = t.place + 1;
    if (!t.out) continue;
    const from = before ? before.out?.bracket : start;
    if (from) {
      splits.push({
        try: attempt,
        from: before?.place ?? null,
        to: t.place,
        time: timeBetween(from, t.out.bracket),
      });
      if (before && isBefore(t.out.bracket, from)) {
        warnings.push({ warning: 'outOfOrder', place: t.place, try: attempt, before: before.place });
      }
    }
    before = t;
  }
  return { splits, warnings };
}
