import { countedCourse } from '../../course/course.ts';
import type { ActOutcome } from '../../library/reviews.ts';
import { emptyPlan } from '../../plan/plan.ts';
import { Header } from '../../review/document.ts';
import { documentOf, writeDocument } from '../../review/readDocument.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { clipFacts } from '../clipFacts.ts';
import type { CallHandler, Desk } from '../desk.ts';
import { trouble } from '../troubles.ts';

export const reviewCreate: CallHandler<'review.create'> = (desk, args) => {
  const id = desk.newId();
  const footage = args.clipIds.map((clipId) => {
    const clip = desk.library.clips.get(clipId);
    if (!clip) throw trouble('notFound', hostTroubles.unknownClip);
    return { id: desk.newId(), clipId, name: clip.name, speed: [], offset: 0, rate: 1 };
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
  });
  desk.hub.libraryChanged();
  return { reviewId: id };
};

export const reviewApply: CallHandler<'review.apply'> = (desk, { reviewId, actId, label, changes }) => {
  for (const change of changes) {
    if (change.kind !== 'footage' || change.body === null) continue;
    if (!desk.library.clips.get(change.body.clipId)) {
      throw trouble('badInput', hostTroubles.footageUnknownClip(change.body.name));
    }
  }
  return told(desk, reviewId, desk.library.reviews.apply(reviewId, actId, label, changes));
};

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
