import { obstacleAt } from '../course/course.ts';
import { frameStartingAt } from '../time/frameTable.ts';
import { pts } from '../time/units.ts';
import { angleWarnings, withAngles } from './angles.ts';
import type { Analysis, EventRow, Taken, Warning } from './analysis.ts';
import { analyseCross } from './crossVerdict.ts';
import type { ReviewState } from './entities.ts';
import { momentOf, placed, type Clocks } from './moments.ts';
import { kindAt, obstaclesTaken, splitsOf, type TakenPlaced } from './obstaclesTaken.ts';
import { clockEdges, runClockOf } from './runClock.ts';
import { startLineOf } from './startLine.ts';

export type { Clocks } from './moments.ts';

/**
 * Reads everything the first analysis knows out of a review: obstacles taken, splits, the clock of the run,
 * crosses, start line, events. Pure; every figure carries its plus or minus.
 * Moments of different clips are as far apart as their line-ups allow. Marks whose footage is not in `clocks` are left
 * out and warned of.
 */
export function analyse(review: ReviewState, given: Clocks): Analysis {
  const clocks = withAngles(given, review.footage);
  const { course, marks } = review;
  const { taken, warnings } = obstaclesTaken(course, marks, clocks);
  const tries = [...new Set(marks.flatMap((m) => (m.kind === 'taken' || m.kind === 'start' ? [m.try] : [])))];
  const countedTry = Math.max(1, ...taken.map((t) => t.try));
  const edges = clockEdges(marks, taken, countedTry, clocks);
  const start = edges?.start.bracket ?? null;
  const split = splitsOf(taken, countedTry, start);
  const last = Math.max(0, ...course.steps.map((s) => s.number));
  const complete = taken.some((t) => t.try === countedTry && t.place === last && t.out);
  return {
    tries: tries.sort((a, b) => a - b),
    countedTry,
    clock: edges && runClockOf(edges, countedTry, complete),
    taken: taken.map((t) => takenTold(t, start)),
    splits: split.splits,
    crosses: [...review.crosses]
      .sort((a, b) => a.place - b.place)
      .map((cross) =>
        analyseCross(
          cross,
          { kind: kindAt(course, cross.place), nickname: obstacleAt(course, cross.place)?.nickname ?? '' },
          marks,
          taken,
          clocks,
          start,
          review.header.strideSeconds,
        ),
      ),
    startLine: startLineOf(marks, clocks, start),
    events: eventsOf(review, clocks, start),
    warnings: [...footageWarnings(review, clocks), ...angleWarnings(review), ...warnings, ...split.warnings],
  };
}

function takenTold(t: TakenPlaced, start: Parameters<typeof momentOf>[1]): Taken {
  return { ...t, in: t.in && momentOf(t.in, start), out: t.out && momentOf(t.out, start) };
}

function eventsOf(review: ReviewState, clocks: Clocks, start: Parameters<typeof momentOf>[1]): EventRow[] {
  const own = new Map(review.header.ownEvents.map((e) => [e.id, e.label]));
  return review.marks
    .flatMap((mark) => {
      if (mark.kind !== 'event') return [];
      const p = placed(mark, kindAt(review.course, mark.place), clocks);
      if (!p) return [];
      const row: EventRow = {
        mark,
        ownLabel: own.get(mark.event) ?? null,
        place: mark.place ?? null,
        moment: momentOf(p, start),
      };
      return [row];
    })
    .sort((a, b) => a.moment.bracket.from - b.moment.bracket.from);
}

function footageWarnings(review: ReviewState, clocks: Clocks): Warning[] {
  return review.marks.flatMap((mark): Warning[] => {
    const clock = clocks.get(mark.footageId);
    if (!clock) return [{ warning: 'missingFootage', markId: mark.id, footageId: mark.footageId }];
    const exact = frameStartingAt(clock.table, pts(mark.pts)) !== undefined;
    return exact ? [] : [{ warning: 'betweenFrames', markId: mark.id }];
  });
}
