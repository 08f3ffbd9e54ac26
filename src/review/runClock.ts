import { middle } from '../time/bracket.ts';
import { timeBetween } from '../time/quantity.ts';
import type { RunClock } from './analysis.ts';
import type { Mark } from './marks.ts';
import { momentOf, placed, type Clocks, type Placed } from './moments.ts';
import type { TakenPlaced } from './obstaclesTaken.ts';

/** Start and stop of the clock, before they are told as moments. */
export interface ClockEdges {
  readonly startedBy: RunClock['startedBy'];
  readonly start: Placed;
  readonly stoppedBy: RunClock['stoppedBy'];
  readonly stop: Placed;
}

/**
 * What starts and stops the clock of a try: the marks of the rule book's lines where the coach set them, else
 * first take-off and last landing. Null until both ends are there.
 */
export function clockEdges(
  marks: readonly Mark[],
  taken: readonly TakenPlaced[],
  attempt: number,
  clocks: Clocks,
): ClockEdges | null {
  const mine = taken.filter((t) => t.try === attempt);
  const first = mine[0];
  const last = mine.findLast((t) => t.out);
  const lines = (event: 'clockStart' | 'clockStop'): Placed[] =>
    marks
      .flatMap((m) => (m.kind === 'event' && m.event === event ? (placed(m, 'unknown', clocks) ?? []) : []))
      .sort((a, b) => middle(a.bracket) - middle(b.bracket));
  const firstEdge = first?.in ?? first?.out ?? null;
  const line = lines('clockStart').findLast(
    (p) => !firstEdge || middle(p.bracket) <= middle(firstEdge.bracket),
  );
  const start = line ?? first?.in ?? null;
  if (!start) return null;
  const stopLine = lines('clockStop').find((p) => middle(p.bracket) > middle(start.bracket));
  const stop = stopLine ?? last?.out ?? null;
  if (!stop) return null;
  return {
    startedBy: line ? 'clockStart' : 'firstTakeOff',
    start,
    stoppedBy: stopLine ? 'clockStop' : 'lastLanding',
    stop,
  };
}

/** The clock's reading. `complete` says whether the last number of the course was taken. */
export function runClockOf(edges: ClockEdges, attempt: number, complete: boolean): RunClock {
  return {
    try: attempt,
    startedBy: edges.startedBy,
    stoppedBy: edges.stoppedBy,
    start: momentOf(edges.start, edges.start.bracket),
    stop: momentOf(edges.stop, edges.start.bracket),
    time: timeBetween(edges.start.bracket, edges.stop.bracket),
    complete,
  };
}
