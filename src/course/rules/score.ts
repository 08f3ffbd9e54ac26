import type { JudgedRefusal } from '../refusals.ts';
import type { RuleBook } from './book.ts';
import type { Entry } from './entry.ts';
import { named, type RuleNamed } from './entries.ts';
import { hundredths, quotientTo, whole, type Hundredths } from './hundredths.ts';
import type {
  ContactKind,
  EliminationName,
  FaultKind,
  Level,
  ResultClass,
  RunKind,
  TimeFaults,
} from './runRules.ts';

/**
 * Something that happened in a run and may count. `approach` tells apart the times the dog came to an obstacle: two
 * refusals of one place and approach are one act told twice (a run-out is a refusal) and count once.
 */
export type ScoreEvent =
  | { readonly kind: 'knockDown' | 'handlerTouch'; readonly place?: number }
  | {
      readonly kind: 'missedContact';
      readonly place?: number;
      readonly obstacle?: ContactKind;
      readonly zone?: 'up' | 'down';
    }
  | {
      readonly kind: 'refusal';
      readonly how: JudgedRefusal;
      readonly place?: number;
      readonly approach?: number;
    }
  | { readonly kind: 'elimination'; readonly why: EliminationName; readonly place?: number };

/** A run as it is scored. Times are null where they are not known. */
export interface RunToScore {
  readonly run: RunKind;
  /** Id of a level of the book. */
  readonly level?: string | undefined;
  readonly events: readonly ScoreEvent[];
  readonly time: Hundredths | null;
  readonly standardTime: Hundredths | null;
  readonly maximumTime: Hundredths | null;
}

/** Why an event of the run was noted and does not count. */
export type NotCounted = {
  readonly event: ScoreEvent;
  readonly because: 'level' | 'runKind' | 'zone' | 'notInBook' | 'toldTwice';
  readonly rule: RuleNamed | null;
};

/** A fault that counts: how many faults, and by which entry. */
export interface FaultCounted {
  readonly event: ScoreEvent;
  readonly faults: Hundredths;
  readonly rule: RuleNamed;
}

/** What ended the run: called, or following from the count of refusals or the clock. */
export interface EndedBy {
  readonly why: EliminationName;
  readonly place?: number | undefined;
  readonly rule: RuleNamed;
}

/** What the score leaves open because it is not known. */
export type Open = 'time' | 'standardTime' | 'timeFaultRule' | 'faultRule' | 'level';

interface Scored {
  /** The judge's call stands: a score from footage is never official. */
  readonly unofficial: true;
  readonly counted: readonly FaultCounted[];
  readonly notCounted: readonly NotCounted[];
  readonly refusals: number;
  readonly courseFaults: Hundredths;
  /** True where no maximum course time was known, so that nobody can say whether it was kept. */
  readonly maximumUnknown: boolean;
}

/** The class of result: one of the book's, none reached, or none given in such a run or by such a book. */
export type ResultGiven = ResultClass | 'none' | 'notGiven';

export type Score =
  | (Scored & {
      readonly outcome: 'scored';
      readonly time: Hundredths;
      readonly timeFaults: Hundredths;
      readonly total: Hundredths;
      readonly result: ResultGiven;
      readonly resultRule: RuleNamed | null;
    })
  | (Scored & { readonly outcome: 'eliminated'; readonly because: readonly [EndedBy, ...EndedBy[]] })
  | (Scored & { readonly outcome: 'open'; readonly open: readonly [Open, ...Open[]] });

/** Scores a run by a rule book. Nothing is guessed: what the book or the footage does not say leaves it open. */
export function scoreRun(book: RuleBook, run: RunToScore): Score {
  const level = levelOf(book, run.level);
  const faults = countFaults(book, run, level?.value ?? null, level ? named('scoring.levels', level) : null);
  const { ended, setAside } = endings(book, run, faults.refusals);
  const scored: Scored = {
    unofficial: true,
    counted: faults.counted,
    notCounted: [...faults.notCounted, ...setAside],
    refusals: faults.refusals.length,
    courseFaults: whole(faults.counted.reduce((sum, f) => sum + f.faults, 0)),
    maximumUnknown: run.maximumTime === null,
  };
  const [first, ...others] = ended;
  if (first) return { ...scored, outcome: 'eliminated', because: [first, ...others] };
  const timeFaults = timeFaultsOf(book, run, level?.value ?? null);
  const open: Open[] = [];
  if (run.level !== undefined && !level) open.push('level');
  if (faults.unpriced) open.push('faultRule');
  if (run.time === null) open.push('time');
  if (typeof timeFaults !== 'number' && timeFaults !== 'time') open.push(timeFaults);
  const [firstOpen, ...otherOpen] = open;
  if (firstOpen || typeof timeFaults !== 'number' || run.time === null)
    return { ...scored, outcome: 'open', open: [firstOpen ?? 'time', ...otherOpen] };
  const total = whole(scored.courseFaults + timeFaults);
  return {
    ...scored,
    outcome: 'scored',
    time: run.time,
    timeFaults,
    total,
    ...resultOf(book, run.run, total),
  };
}

function levelOf(book: RuleBook, id: string | undefined): Entry<Level> | undefined {
  return id === undefined ? undefined : book.scoring.levels.find((l) => l.value.id === id);
}

interface Faults {
  readonly counted: readonly FaultCounted[];
  readonly notCounted: readonly NotCounted[];
  readonly refusals: readonly ScoreEvent[];
  /** True where an event counts and the book does not say what it costs. */
  readonly unpriced: boolean;
}

function countFaults(
  book: RuleBook,
  run: RunToScore,
  level: Level | null,
  levelRule: RuleNamed | null,
): Faults {
  const counted: FaultCounted[] = [];
  const notCounted: NotCounted[] = [];
  const refusals: ScoreEvent[] = [];
  const told = new Set<string>();
  let unpriced = false;
  for (const event of run.events) {
    if (event.kind === 'elimination') continue;
    const aside = judged(book, event, told);
    if (aside) {
      notCounted.push({ event, ...aside });
      continue;
    }
    if (level?.notCounted.includes(event.kind)) {
      notCounted.push({ event, because: 'level', rule: levelRule });
      continue;
    }
    if (event.kind === 'refusal') refusals.push(event);
    const price = book.scoring.faults[event.kind];
    if (price) counted.push({ event, faults: hundredths(price.value), rule: priceName(event.kind, price) });
    else unpriced = true;
  }
  return { counted, notCounted, refusals, unpriced };
}

const priceName = (kind: FaultKind, price: Entry<number>): RuleNamed =>
  named(`scoring.faults.${kind}`, price);

/** Why the book does not judge an event at all, or null. */
function judged(
  { scoring }: RuleBook,
  event: ScoreEvent,
  told: Set<string>,
): Pick<NotCounted, 'because' | 'rule'> | null {
  if (event.kind === 'refusal') {
    const { refusals } = scoring;
    if (refusals && !refusals.value.includes(event.how))
      return { because: 'notInBook', rule: named('scoring.refusals', refusals) };
    if (event.place === undefined || event.approach === undefined) return null;
    const act = `${event.place}/${event.approach}`;
    if (told.has(act)) return { because: 'toldTwice', rule: null };
    told.add(act);
  }
  if (event.kind === 'missedContact' && event.obstacle && event.zone && scoring.contacts) {
    const zones = scoring.contacts.value.find((c) => c.kind === event.obstacle);
    if (!zones?.[event.zone]) return { because: 'zone', rule: named('scoring.contacts', scoring.contacts) };
  }
  return null;
}

/** What ends the run, and the eliminations that this kind of run or this book sets aside. */
function endings(
  { scoring }: RuleBook,
  run: RunToScore,
  refusals: readonly ScoreEvent[],
): { ended: EndedBy[]; setAside: NotCounted[] } {
  const list = scoring.eliminations;
  const difference = scoring.runs[run.run];
  const spared = new Set(difference?.value.setAside);
  const ended: EndedBy[] = [];
  const setAside: NotCounted[] = [];
  const last = scoring.lastRefusal;
  const lastOne = last ? refusals[last.value - 1] : undefined;
  if (last && lastOne && !spared.has('refusals'))
    ended.push({ why: 'refusals', place: lastOne.place, rule: named('scoring.lastRefusal', last) });
  const over = run.time !== null && run.maximumTime !== null && run.time > run.maximumTime;
  if (over && list?.value.includes('overMaximumTime') && !spared.has('overMaximumTime'))
    ended.push({ why: 'overMaximumTime', rule: named('scoring.eliminations', list) });
  for (const event of run.events) {
    if (event.kind !== 'elimination') continue;
    if (spared.has(event.why))
      setAside.push({
        event,
        because: 'runKind',
        rule: difference ? named(`scoring.runs.${run.run}`, difference) : null,
      });
    else if (list?.value.includes(event.why))
      ended.push({ why: event.why, place: event.place, rule: named('scoring.eliminations', list) });
    else
      setAside.push({ event, because: 'notInBook', rule: list ? named('scoring.eliminations', list) : null });
  }
  return { ended, setAside };
}

function timeFaultsOf(
  { scoring }: RuleBook,
  { time, standardTime }: RunToScore,
  level: Level | null,
): Hundredths | 'time' | 'standardTime' | 'timeFaultRule' {
  if (level?.notCounted.includes('timeFaults')) return whole(0);
  if (time === null) return 'time';
  if (standardTime === null) return 'standardTime';
  const over = time - standardTime;
  if (over <= 0) return whole(0);
  return scoring.timeFaults ? faultsForTime(scoring.timeFaults.value, whole(over)) : 'timeFaultRule';
}

/** Faults for so much time over the standard course time. */
export function faultsForTime({ points, perSeconds, counting }: TimeFaults, over: Hundredths): Hundredths {
  const price = hundredths(points);
  const per = hundredths(perSeconds);
  if (counting === 'exact') return quotientTo(price * over, per, 1, 'down');
  return whole(quotientTo(over, per, 1, counting === 'begun' ? 'up' : 'down') * price);
}

function resultOf(
  { scoring }: RuleBook,
  run: RunKind,
  total: Hundredths,
): { result: ResultGiven; resultRule: RuleNamed | null } {
  const difference = scoring.runs[run];
  if (difference && !difference.value.resultClass)
    return { result: 'notGiven', resultRule: named(`scoring.runs.${run}`, difference) };
  if (!scoring.resultClasses) return { result: 'notGiven', resultRule: null };
  const result = scoring.resultClasses.value.find((c) => total <= hundredths(c.upTo)) ?? 'none';
  return { result, resultRule: named('scoring.resultClasses', scoring.resultClasses) };
}
