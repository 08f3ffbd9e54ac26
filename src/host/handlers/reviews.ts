import { countedCourse } from '../../course/course.ts';
import type { ActOutcome } from '../../library/reviews.ts';
import { emptyPlan } from '../../plan/plan.ts';
import { Header, type Cut, type FootageUse } from '../../review/document.ts';
import { documentOf, writeDocument } from '../../review/readDocument.ts';
import { checkSpeedMap } from '../../time/captureClock.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { problemWords } from '../../words/problems.ts';
import { clipFacts } from '../clipFacts.ts';
import type { CallHandler, Desk } from '../desk.ts';
import { trouble } from '../troubles.ts';

export const reviewCreate: CallHandler<'review.create'> = (desk, args) => {
  const id = desk.newId();
  const uses = [...args.clipIds.map((clipId) => ({ clipId, speed: [], offset: 0 })), ...(args.uses ?? [])];
  const footage = uses.map((use) => {
    const clip = desk.library.clips.get(use.clipId);
    if (!clip) throw trouble('notFound', hostTroubles.unknownClip);
    const body: FootageUse = { ...use, id: desk.newId(), name: clip.name, rate: 1 };
    checkUse(desk, body);
    return body;
  });
  desk.library.reviews.add({
    id,
    header: Header.parse({ title: args.title, dog: args.dog, handler: args.handler }),
    course: countedCourse(args.obstacles),
    plan: emptyPlan(),
    footage,
    marks: [],
    crosses: [],
    drawings: [],
    tracks: [],
    fits: [],
  });
  desk.hub.libraryChanged();
  return { reviewId: id };
};

export const reviewApply: CallHandler<'review.apply'> = (desk, { reviewId, actId, label, changes }) => {
  for (const change of changes) {
    if (change.kind !== 'footage' || change.body === null) continue;
    checkUse(desk, change.body);
  }
  return told(desk, reviewId, desk.library.reviews.apply(reviewId, actId, label, changes));
};

/** Refuses footage whose clip is not there, whose speeds make no sense, or whose cut lies outside of its clip. */
function checkUse(desk: Desk, use: Pick<FootageUse, 'clipId' | 'name' | 'speed' | 'cut' | 'runs'>): void {
  const { clipId, name, speed, cut, runs = [] } = use;
  if (!desk.library.clips.get(clipId)) throw trouble('badInput', hostTroubles.footageUnknownClip(name));
  try {
    checkSpeedMap(speed);
  } catch (error) {
    throw trouble(
      'badInput',
      problemWords.speed(name, error instanceof Error ? error.message : String(error)),
    );
  }
  if (!cut && runs.length === 0) return;
  const { pts } = desk.library.clips.frames(clipId);
  const within = ({ from, to }: Cut): boolean =>
    from <= to && from >= (pts[0] ?? 0) && to <= (pts.at(-1) ?? 0);
  if (cut && !within(cut)) throw trouble('badInput', problemWords.cutOutside(name));
  const bad = runs.find((run) => !within({ from: run.from, to: run.to ?? run.from }));
  if (bad) throw trouble('badInput', problemWords.runOutside(name, bad.dog));
}

export const reviewUndo: CallHandler<'review.undo'> = (desk, { reviewId }) =>
  told(desk, reviewId, desk.library.reviews.undo(reviewId));

export const reviewRedo: CallHandler<'review.redo'> = (desk, { reviewId }) =>
  told(desk, reviewId, desk.library.reviews.redo(reviewId));

export const reviewRemove: CallHandler<'review.remove'> = (desk, { reviewId }) => {
  told(desk, reviewId, desk.library.reviews.remove(reviewId));
  return {};
};

export const reviewRestore: CallHandler<'review.restore'> = (desk, { reviewId }) => {
  told(desk, reviewId, desk.library.reviews.restore(reviewId));
  return {};
};

export const reviewDocument: CallHandler<'review.document'> = (desk, { reviewId }) => {
  const { state } = desk.library.reviews.whole(reviewId);
  return { json: writeDocument(documentOf(state, clipFacts(desk.library.clips, state))) };
};

/** Tells every window that listens, then gives the answer for the one that asked. */
function told(desk: Desk, reviewId: string, outcome: ActOutcome) {
  const { act, actId, label, changes, canUndo, canRedo, repeated } = outcome;
  if (!repeated) {
    desk.hub.acted(reviewId, { type: 'act', act, actId, label, changes: [...changes], canUndo, canRedo });
    desk.hub.libraryChanged();
  }
  return { act, canUndo, canRedo };
}
