import type { Analysis, EventRow, Taken } from '../review/analysis.ts';
import type { EventKind } from '../review/marks.ts';
import { coachingReport as words } from '../words/coachingReport.ts';
import { figureAt, sizedAt, type Line } from './pieces.ts';
import type { Places } from './places.ts';

/** Events that end a stretch without a fault. Wide turns and late cues are remarks, not faults. */
const faults: ReadonlySet<string> = new Set<EventKind>([
  'barDown',
  'refusal',
  'offCourse',
  'missedEntry',
  'poppedOut',
  'missedContact',
]);
/** A stretch shorter than this is not worth a line of its own. */
const shortest = 3;

/** What the marks themselves say went well. Facts only: nothing here is praise that the marks do not carry. */
export function wentWellFacts(analysis: Analysis, obstacles: number, places: Places): Line[] {
  return [
    ...stays(analysis),
    ...crosses(analysis, places),
    ...clean(analysis, obstacles),
    ...signs(analysis, places),
  ];
}

function stays(analysis: Analysis): Line[] {
  const { fact } = words;
  const all = analysis.startLine.length;
  return analysis.startLine.flatMap((t, i): Line[] => {
    if (t.verdict !== 'kept') return [];
    if (!t.stay) return [[fact.stay(all, t.try)]];
    return [fact.stayFor(all, t.try, figureAt(`startLine[${i}].stay`, t.stay))];
  });
}

function crosses(analysis: Analysis, places: Places): Line[] {
  return analysis.crosses.flatMap((c, i): Line[] => {
    if (c.verdict !== 'inTime') return [];
    const lead = sizedAt(`crosses[${i}].lead`, c.lead);
    return [words.fact.cross(c.kind, places.named(c.place), lead?.piece ?? null, places.edges(c.place).in)];
  });
}

/** Unbroken numbers of the counted try, each taken after the one before, with no fault marked on them. */
function clean(analysis: Analysis, obstacles: number): Line[] {
  const mine = analysis.taken.filter((t) => t.try === analysis.countedTry);
  const faulty = faultyPlaces(analysis, mine);
  const stretches: { from: number; to: number }[] = [];
  let before: Taken | null = null;
  for (const t of mine) {
    const last = stretches.at(-1);
    const follows: boolean = before !== null && before.place === t.place - 1 && inOrder(before, t);
    if (faulty.has(t.place)) {
      before = null;
      continue;
    }
    if (last && follows) last.to = t.place;
    else stretches.push({ from: t.place, to: t.place });
    before = t;
  }
  const longest = stretches.reduce<{ from: number; to: number } | null>(
    (best, s) => (!best || s.to - s.from > best.to - best.from ? s : best),
    null,
  );
  const everyOne = obstacles > 0 && mine.length === obstacles;
  const count = longest ? longest.to - longest.from + 1 : 0;
  if (everyOne && count === obstacles && obstacles >= shortest) return [[words.fact.wholeRun(obstacles)]];
  const lines: Line[] = [];
  if (everyOne && obstacles >= shortest) lines.push([words.fact.all(obstacles)]);
  if (longest && count >= shortest) lines.push([words.fact.clean(longest.from, longest.to)]);
  return lines;
}

function inOrder(a: Taken, b: Taken): boolean {
  const before = a.out ?? a.in;
  const after = b.out ?? b.in;
  return before !== null && after !== null && before.bracket.from <= after.bracket.to;
}

/** Places that carry a fault. One without a place counts for the obstacle that was done next, and the one before. */
function faultyPlaces(analysis: Analysis, mine: readonly Taken[]): Set<number> {
  const begins = Math.min(...mine.flatMap((t) => [t.in, t.out]).map((m) => m?.bracket.from ?? Infinity));
  const places = new Set<number>();
  for (const e of analysis.events) {
    if (!faults.has(e.mark.event) || (analysis.tries.length > 1 && e.moment.bracket.to < begins)) continue;
    if (e.place !== null) places.add(e.place);
    else for (const place of around(e, mine)) places.add(place);
  }
  return places;
}

function around(e: EventRow, mine: readonly Taken[]): number[] {
  const next = mine.find((t) => (t.out ?? t.in)?.bracket.to !== undefined && edgeAfter(t, e));
  const before = mine.findLast((t) => !edgeAfter(t, e));
  return [next, before].flatMap((t) => (t ? [t.place] : []));
}

function edgeAfter(t: Taken, e: EventRow): boolean {
  const edge = t.out ?? t.in;
  return edge !== null && edge.bracket.to >= e.moment.bracket.from;
}

function signs(analysis: Analysis, places: Places): Line[] {
  return analysis.events.flatMap((e): Line[] => {
    const where = e.place === null ? null : places.named(e.place);
    if (e.mark.event === 'happy') return [words.fact.happy(where)];
    if (e.mark.event === 'reward') return [words.fact.reward(where)];
    return [];
  });
}
