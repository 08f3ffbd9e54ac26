import type { ObstacleKind } from '../course/kinds.ts';
import type { RuleBook } from '../course/rules/book.ts';
import type { TimesOfClass } from '../course/rules/courseTime.ts';
import { hundredths, type Hundredths } from '../course/rules/hundredths.ts';
import { contactKinds, type ContactKind, type RunKind } from '../course/rules/runRules.ts';
import { scoreRun, type Score, type ScoreEvent } from '../course/rules/score.ts';
import { middle } from '../time/bracket.ts';
import { least, most } from '../time/quantity.ts';
import type { Analysis, EventRow } from './analysis.ts';

/** The score that the marks of a run come to under a rule book. Unofficial: the judge's call stands. */
export interface RunScore {
  readonly score: Score;
  /** The same run at the ends of its time's plus or minus, where they do not come to the same. */
  readonly between: { readonly fastest: Score; readonly slowest: Score } | null;
  /** Marks that say something happened and that no rule book judges as such (a wide turn, a pop-out). */
  readonly onlyNoted: readonly EventRow[];
  /** Marks that lie outside the try that counts. */
  readonly outside: readonly EventRow[];
}

export interface ToScore {
  readonly analysis: Pick<Analysis, 'events' | 'taken' | 'clock' | 'countedTry'>;
  readonly run: RunKind;
  /** Id of a level of the book. */
  readonly level?: string | undefined;
  /** Standard and maximum course time; null where there is nothing to work them out from. */
  readonly times: TimesOfClass | null;
}

/**
 * Two refusals of one obstacle within so many seconds are one act told twice: a run-out is a refusal and counts once,
 * and no dog turns round and comes again within a second (an assumption, not a rule).
 */
const oneApproach = 1;

/**
 * Scores a run from its marks. Only what lies in the try that counts is counted; a try set up again ends a run where
 * the book says so. The time counts once the last number was taken. Where its plus or minus lies across a threshold,
 * the scores at both ends are given.
 */
export function scoreOfRun(book: RuleBook, { analysis, run, level, times }: ToScore): RunScore {
  const { clock, countedTry } = analysis;
  const from = clock?.start.bracket.from ?? -Infinity;
  const inside = (row: EventRow): boolean => countedTry === 1 || middle(row.moment.bracket) >= from;
  const outside = analysis.events.filter((row) => judges(row) && !inside(row));
  const told = eventsToScore(analysis.events.filter(inside), analysis.taken);
  const again: ScoreEvent[] = countedTry > 1 ? [{ kind: 'elimination', why: 'restarted' }] : [];
  const at = (seconds: number | null): Score =>
    scoreRun(book, {
      run,
      level,
      events: [...told.events, ...again],
      time: seconds === null ? null : timeRead(seconds),
      standardTime: times?.standard.known ? times.standard.time : null,
      maximumTime: times?.maximum.known ? times.maximum.time : null,
    });
  const time = clock?.complete ? clock.time : null;
  const score = at(time?.value ?? null);
  if (!time) return { score, between: null, onlyNoted: told.onlyNoted, outside };
  const fastest = at(least(time));
  const slowest = at(most(time));
  const same = cameTo(fastest) === cameTo(slowest);
  return { score, between: same ? null : { fastest, slowest }, onlyNoted: told.onlyNoted, outside };
}

/** A reading of the clock in hundredths; one below nought (marks out of order) reads nought. */
const timeRead = (seconds: number): Hundredths => hundredths(Math.max(0, seconds));

const cameTo = (s: Score): string =>
  s.outcome === 'scored'
    ? `${s.total} ${typeof s.result === 'string' ? s.result : s.result.id}`
    : s.outcome === 'eliminated'
      ? s.because.map((e) => e.why).join()
      : s.open.join();

const judges = ({ mark }: EventRow): boolean =>
  ['barDown', 'missedContact', 'refusal', 'missedEntry', 'offCourse'].includes(mark.event);

function eventsToScore(
  rows: readonly EventRow[],
  taken: Analysis['taken'],
): { readonly events: ScoreEvent[]; readonly onlyNoted: EventRow[] } {
  const kinds = new Map(taken.map((t) => [t.place, t.kind]));
  const approaches = approachesOf(rows);
  const events: ScoreEvent[] = [];
  const onlyNoted: EventRow[] = [];
  for (const row of rows) {
    const event = eventOf(row, kinds, approaches.get(row));
    if (event) events.push(event);
    else onlyNoted.push(row);
  }
  return { events, onlyNoted };
}

function eventOf(
  { mark, place }: EventRow,
  kinds: ReadonlyMap<number, ObstacleKind>,
  approach: number | undefined,
): ScoreEvent | null {
  const at = place === null ? {} : { place };
  const coming = approach === undefined ? {} : { approach };
  switch (mark.event) {
    case 'barDown':
      return { kind: 'knockDown', ...at };
    case 'missedContact': {
      const kind = place === null ? undefined : kinds.get(place);
      return { kind: 'missedContact', ...at, ...(isContact(kind) ? { obstacle: kind } : {}) };
    }
    case 'refusal':
      // Where the coach did not say which kind, it is one that every book lists.
      return { kind: 'refusal', how: mark.refusal ?? 'stopped', ...at, ...coming };
    case 'missedEntry':
      return { kind: 'refusal', how: 'missedEntry', ...at, ...coming };
    case 'offCourse':
      return { kind: 'elimination', why: 'wrongOrder', ...at };
    default:
      return null;
  }
}

const isContact = (kind: ObstacleKind | undefined): kind is ContactKind =>
  contactKinds.some((c) => c === kind);

/** Which approach to its obstacle a refusal belongs to, counted from 1; refusals soon after each other share one. */
function approachesOf(rows: readonly EventRow[]): ReadonlyMap<EventRow, number> {
  const last = new Map<number, { approach: number; at: number }>();
  const found = new Map<EventRow, number>();
  for (const row of rows.toSorted((a, b) => middle(a.moment.bracket) - middle(b.moment.bracket))) {
    if (row.place === null || (row.mark.event !== 'refusal' && row.mark.event !== 'missedEntry')) continue;
    const at = middle(row.moment.bracket);
    const before = last.get(row.place);
    const approach = !before ? 1 : at - before.at <= oneApproach ? before.approach : before.approach + 1;
    last.set(row.place, { approach, at });
    found.set(row, approach);
  }
  return found;
}
