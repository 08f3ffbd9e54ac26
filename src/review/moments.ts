import { mannerOf, type ObstacleKind } from '../course/kinds.ts';
import {
  bracketOf,
  frameSpanOf,
  middle,
  type Bracket,
  type ClipClock,
  type FrameSpan,
  type Seen,
} from '../time/bracket.ts';
import { frameAt } from '../time/frameTable.ts';
import { timeBetween, type Quantity } from '../time/quantity.ts';
import { pts } from '../time/units.ts';
import type { Moment } from './analysis.ts';
import type { Mark } from './marks.ts';

/** Frame tables and clocks of the footage in use, by footage id. */
export type Clocks = ReadonlyMap<string, ClipClock>;

/**
 * How an edge of an obstacle is seen (design facts): take-off and last paw off are last-seen; landing, entries,
 * exits and first paw on are first-seen. On an obstacle of unknown kind it may be either.
 */
export function seenAtEdge(kind: ObstacleKind, edge: 'in' | 'out'): Seen {
  switch (mannerOf(kind)) {
    case 'jumped':
      return edge === 'in' ? 'last' : 'first';
    case 'climbed':
      return edge === 'in' ? 'first' : 'last';
    case 'through':
    case 'woven':
      return 'first';
    case 'unknown':
      return 'either';
  }
}

/** How the event of a mark is seen, given the kind of obstacle it belongs to. */
export function seenOf(mark: Mark, kind: ObstacleKind): Seen {
  switch (mark.kind) {
    case 'taken':
      return mark.edge === 'whole' ? 'either' : seenAtEdge(kind, mark.edge);
    case 'cross':
      if (mark.part === 'takeOff') return seenAtEdge(kind, 'in');
      if (mark.part === 'landing') return seenAtEdge(kind, 'out');
      return 'first';
    case 'event':
    case 'start':
      return 'first';
  }
}

/** A mark on its clip's clock, before it is counted from the start of the run. */
export interface Placed {
  readonly mark: Mark;
  readonly frame: number;
  readonly bracket: Bracket;
  readonly span: FrameSpan;
}

/** Places a mark on the clock of the run; null where its footage has no clock. */
export function placed(mark: Mark, kind: ObstacleKind, clocks: Clocks): Placed | null {
  const clock = clocks.get(mark.footageId);
  if (!clock) return null;
  const at = pts(mark.pts);
  const seen = seenOf(mark, kind);
  return {
    mark,
    frame: frameAt(clock.table, at),
    bracket: bracketOf(clock, at, seen, mark.unsure),
    span: frameSpanOf(clock.table, at, seen, mark.unsure),
  };
}

/** A placed mark as a moment, counted from `start` (run time 0 where there is none). */
export function momentOf(p: Placed, start: Bracket | null): Moment {
  return {
    markId: p.mark.id,
    footageId: p.mark.footageId,
    pts: p.mark.pts,
    frame: p.frame,
    bracket: p.bracket,
    at: sinceStart(p.bracket, start),
  };
}

function sinceStart(bracket: Bracket, start: Bracket | null): Quantity {
  if (!start) return { value: middle(bracket), plusMinus: (bracket.to - bracket.from) / 2, unit: 's' };
  // The start itself reads exactly nought: its own bracket is on both sides of the difference.
  if (bracket.from === start.from && bracket.to === start.to) return { value: 0, plusMinus: 0, unit: 's' };
  return timeBetween(start, bracket);
}
