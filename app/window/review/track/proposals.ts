import type { Course } from '../../../../src/course/course.ts';
import type { Change, ReviewState } from '../../../../src/review/entities.ts';
import type { TakenMark } from '../../../../src/review/marks.ts';
import { seenAtEdge } from '../../../../src/review/moments.ts';
import type { ClipClock } from '../../../../src/time/bracket.ts';
import { lastFrame, ptsOf } from '../../../../src/time/frameTable.ts';
import type { Quantity } from '../../../../src/time/quantity.ts';
import { frameIndex } from '../../../../src/time/units.ts';
import type { TakenByLine } from '../../../../src/track/takenFromLine.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { put, type Act, type MakeId } from '../marking/act.ts';
import { frameShownAt } from '../../../../src/review/cells.ts';
import { timeOf } from './strides.ts';

const words = realLineWords.acts;

/** An obstacle that the line goes through at a number of the course. */
export type Proposed = TakenByLine & { readonly as: { readonly place: number } };

export const isProposed = (t: TakenByLine): t is Proposed => 'place' in t.as;

/** Numbers that the coach has marked in this try: they are hers. */
export function markedPlaces(review: Pick<ReviewState, 'marks'>, attempt: number): ReadonlySet<number> {
  return new Set(review.marks.flatMap((m) => (m.kind === 'taken' && m.try === attempt ? [m.place] : [])));
}

/** A clip on which marks may be set. */
export interface ShownOn {
  readonly footageId: string;
  readonly clock: ClipClock;
}

const shows = ({ clock }: ShownOn, at: number): boolean =>
  timeOf(clock, 0) <= at && at <= timeOf(clock, lastFrame(clock.table));

/**
 * Makes marks of proposals: in and out where the line tells both, else one mark for the two, each as unsure as its
 * moment is, on the first of the clips that shows it. A number that carries a mark of the coach is left as it is. Null where nothing is left to mark.
 */
export function acceptProposed(
  review: Pick<ReviewState, 'marks'>,
  course: Course,
  proposed: readonly Proposed[],
  where: { readonly clips: readonly ShownOn[]; readonly try: number },
  makeId: MakeId,
): Act | null {
  const hers = markedPlaces(review, where.try);
  const fresh = proposed.filter((p) => !hers.has(p.as.place));
  const changes = fresh.flatMap((p): Change[] => {
    const kind = course.obstacles.find((o) => o.id === p.obstacleId)?.kind ?? 'unknown';
    const mark = (edge: TakenMark['edge'], at: Quantity): Change[] => {
      const seen = edge === 'whole' ? 'last' : seenAtEdge(kind, edge);
      const clip = shownOn(where.clips, at.value);
      if (!clip) return [];
      const taken = put({
        id: makeId(),
        kind: 'taken',
        footageId: clip.footageId,
        ...frameOf(clip.clock, at, seen === 'first'),
        note: '',
        place: p.as.place,
        edge,
        try: where.try,
      });
      return [taken];
    };
    if (p.in && p.out) return [...mark('in', p.in), ...mark('out', p.out)];
    return mark('whole', p.through.at);
  });
  const [first] = fresh;
  if (!first) return null;
  return {
    label: fresh.length === 1 ? words.accepted(first.as.place) : words.acceptedAll(fresh.length),
    changes,
  };
}

/** The first of the clips that shows a moment, else the first of all. */
export const shownOn = (clips: readonly ShownOn[], at: number): ShownOn | undefined =>
  clips.find((c) => shows(c, at)) ?? clips[0];

/** The frame that shows a moment, first or last, and by how many frames the moment may be off. */
export function frameOf(
  clock: ClipClock,
  at: Quantity,
  first: boolean,
): { readonly pts: number; readonly unsure: number } {
  const last = lastFrame(clock.table);
  const shown = frameShownAt(clock, at.value);
  // What is seen first is seen on the frame that begins after it.
  const frame = first && timeOf(clock, shown) < at.value - 1e-9 ? Math.min(last, shown + 1) : shown;
  const around = Math.max(1, frame === 0 ? 1 : frame);
  const each = timeOf(clock, around) - timeOf(clock, around - 1);
  const unsure = each > 0 ? Math.min(10_000, Math.ceil(at.plusMinus / each - 1e-9)) : 0;
  return { pts: ptsOf(clock.table, frameIndex(frame)), unsure };
}
