import type { Mark, StartMark, TakenMark } from '../../../../src/review/marks.ts';
import { numberAfter, type Numbers } from './numbers.ts';
import type { Timed } from './order.ts';

/**
 * Two take-offs, or two landings, closer than this are one edge corrected, not two obstacles. Assumed: no dog takes
 * two obstacles within a quarter of a second.
 */
export const correctionSeconds = 0.25;

/** What the coach typed or asked for, before the next mark uses it up. */
export interface Typed {
  readonly place: number | null;
  readonly try: number | null;
}

/** The obstacle the next mark belongs to. */
export interface AtHand {
  /** Null where every number of the course is taken and none was typed. */
  readonly place: number | null;
  readonly expects: 'in' | 'out';
  readonly try: number;
  readonly typed: boolean;
  /** The last edge at or before the playhead. */
  readonly last: Timed<TakenMark> | null;
}

function isTaken(t: Timed): t is Timed<TakenMark> {
  return t.mark.kind === 'taken';
}

function tellsTry(t: Timed): t is Timed<TakenMark | StartMark> {
  return t.mark.kind === 'taken' || t.mark.kind === 'start';
}

/** The try the playhead lies in: that of the last start-line or obstacle mark before it, unless another was begun. */
export function tryAt(ordered: readonly Timed<Mark>[], now: number, asked: number | null): number {
  if (asked !== null) return asked;
  return ordered.filter(tellsTry).findLast((t) => t.at <= now)?.mark.try ?? 1;
}

/**
 * Reads from the marks before the playhead which obstacle is at hand and which edge of it comes next. So the number
 * advances by itself while a run is marked, and is right again wherever the coach goes back to.
 */
export function atHand(ordered: readonly Timed<Mark>[], numbers: Numbers, now: number, typed: Typed): AtHand {
  const attempt = tryAt(ordered, now, typed.try);
  const last = ordered.filter(isTaken).findLast((t) => t.at <= now && t.mark.try === attempt) ?? null;
  if (typed.place !== null) {
    const entered = last?.mark.place === typed.place && last.mark.edge === 'in';
    return { place: typed.place, expects: entered ? 'out' : 'in', try: attempt, typed: true, last };
  }
  if (!last) {
    return { place: numberAfter(numbers, 0), expects: 'in', try: attempt, typed: false, last };
  }
  if (last.mark.edge === 'in') {
    return { place: last.mark.place, expects: 'out', try: attempt, typed: false, last };
  }
  return {
    place: numberAfter(numbers, last.mark.place),
    expects: 'in',
    try: attempt,
    typed: false,
    last,
  };
}

/** The obstacle whose edge a press means, given what is at hand. Null where all numbers are taken. */
export function pressedPlace(
  press: 'in' | 'out' | 'whole',
  hand: AtHand,
  numbers: Numbers,
  now: number,
): number | null {
  if (hand.typed || !hand.last) return hand.place;
  const again = hand.last.mark.edge === press && now - hand.last.at < correctionSeconds;
  if (again) return hand.last.mark.place;
  // An out that was never marked: the dog is already at the next obstacle.
  if (press !== 'out' && hand.expects === 'out') return numberAfter(numbers, hand.last.mark.place);
  return hand.place;
}

/** How an event binds to obstacles: to the one just taken, or to the one that should have been. */
const ahead: ReadonlySet<string> = new Set(['refusal', 'offCourse', 'missedEntry']);
const unbound: ReadonlySet<string> = new Set(['clockStart', 'clockStop']);

/** The obstacle an event belongs to; undefined for the clock, and before the first obstacle. */
export function placeOfEvent(event: string, hand: AtHand, numbers: Numbers): number | undefined {
  if (unbound.has(event)) return undefined;
  if (hand.typed) return hand.place ?? undefined;
  if (!hand.last) return ahead.has(event) ? (hand.place ?? undefined) : undefined;
  if (hand.expects === 'out' || !ahead.has(event)) return hand.last.mark.place;
  return numberAfter(numbers, hand.last.mark.place) ?? undefined;
}
