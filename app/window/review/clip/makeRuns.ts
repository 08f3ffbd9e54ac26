import type { FootageUse } from '../../../../src/review/document.ts';
import type { ReviewState } from '../../../../src/review/entities.ts';
import type { ClipClock } from '../../../../src/time/bracket.ts';
import { toCapture } from '../../../../src/time/captureClock.ts';
import { ticksToSeconds } from '../../../../src/time/timeBase.ts';
import { pts } from '../../../../src/time/units.ts';
import { clipCutWords } from '../../../../src/words/clipCut.ts';
import type { Workbench } from '../../stores/workbench.ts';
import { numberOf, ready } from './cutEdits.ts';

const words = clipCutWords;

/**
 * Makes a review of every run that has both its ends and none yet: the same clip with another cut, and the course of
 * this review, since a class runs one course. Nothing is copied. Resolves to the reviews made, by run; a run whose
 * review could not be made is told of and can be tried again. Never rejects.
 */
export async function makeRuns(
  { host, notices }: Pick<Workbench, 'host' | 'notices'>,
  review: ReviewState,
  use: FootageUse,
  clock: ClipClock,
): Promise<ReadonlyMap<string, string>> {
  const made = new Map<string, string>();
  const { clipId, speed, runs = [] } = use;
  const places = Math.max(0, ...review.course.steps.map((step) => step.number));
  for (const run of ready(runs)) {
    const number = numberOf(runs, run.id);
    const { dog, handler, from, to } = run;
    // Each run has a clock of its own, which starts where the cut does.
    const start = toCapture(clock.speed, ticksToSeconds(clock.table.timeBase, pts(from)));
    try {
      const { reviewId } = await host.call('review.create', {
        title: words.titleOf(dog, use.name.replace(/\.[^.]{1,5}$/, ''), number).slice(0, 200),
        dog,
        handler,
        obstacles: places,
        uses: [{ clipId, speed, offset: 0 - start, cut: { from, to } }],
      });
      made.set(run.id, reviewId);
      if (places > 0) {
        await host.call('review.apply', {
          reviewId,
          actId: crypto.randomUUID(),
          label: words.acts.course,
          changes: [{ kind: 'course', id: reviewId, body: review.course }],
        });
      }
    } catch (error) {
      notices.getState().trouble(error, (why) => words.notMade(number, why));
    }
  }
  return made;
}
