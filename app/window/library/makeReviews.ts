import type { Change } from '../../../src/review/entities.ts';
import { libraryWords } from '../../../src/words/library.ts';
import type { Workbench } from '../stores/workbench.ts';
import { titleOf } from './findReviews.ts';
import type { NewReviewForm } from './intake.ts';

const words = libraryWords.form;

/** What the coach answered in the form. */
export interface Answers {
  readonly title: string;
  readonly dog: string;
  readonly handler: string;
  readonly obstacles: number;
  /** Several videos: a review for each, or one for all. */
  readonly together: 'each' | 'one';
  /** A new review, or the one that is open. */
  readonly into: 'new' | 'open';
  /** True where the coach was told that no video can be used and goes on all the same. */
  readonly evenWithout: boolean;
}

/**
 * Waits for the videos, then makes the reviews and opens the only one. `noneLeft`: no video can be used and
 * nothing was made. `given up`: the form was shut meanwhile. Rejects with HostTrouble.
 */
export async function makeReviews(
  workbench: Workbench,
  form: NewReviewForm,
  answers: Answers,
): Promise<'made' | 'noneLeft' | 'given up'> {
  const { intake, library, host, notices, route, review } = workbench;
  const items = await intake.settled(form.itemIds);
  if (!intake.getState().form) return 'given up';
  const clips = new Map<string, string>();
  for (const id of form.clipIds) clips.set(id, library.getState().clips.get(id)?.name ?? id);
  for (const item of items)
    if (item.stage === 'in' && item.clipId !== null) clips.set(item.clipId, item.name);
  const videosAsked = form.itemIds.length + form.clipIds.length > 0;
  if (videosAsked && clips.size === 0 && !answers.evenWithout) return 'noneLeft';

  if (answers.into === 'open') {
    const { state } = review.getState();
    const added = [...clips].filter(([id]) => !state?.footage.some((use) => use.clipId === id));
    const changes = added.map(([clipId, name]): Change => {
      const id = crypto.randomUUID();
      return { kind: 'footage', id, body: { id, clipId, name, speed: [], offset: 0, rate: 1 } };
    });
    intake.closeForm();
    if (changes.length > 0 && !(await review.apply(words.addedLabel(changes.length), changes))) return 'made';
    notices.getState().say(words.added(changes.length, state?.header.title ?? ''));
    return 'made';
  }

  const { dog, handler, obstacles } = answers;
  const create = (title: string, clipIds: string[]) =>
    host.call('review.create', { title, dog, handler, obstacles, clipIds });
  if (answers.together === 'each' && clips.size > 1) {
    for (const [clipId, name] of clips) await create(titleOf(name), [clipId]);
    intake.closeForm();
    notices.getState().say(words.made(clips.size));
    route.go({ screen: 'library' });
    return 'made';
  }
  const { reviewId } = await create(answers.title, [...clips.keys()]);
  intake.closeForm();
  route.go({ screen: 'review', reviewId });
  return 'made';
}
