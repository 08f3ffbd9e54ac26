import type { JobReport } from '../../../src/host/contract/calls.ts';
import type { ReviewSummary } from '../../../src/host/contract/shapes.ts';
import type { Route } from '../stores/route.ts';

/**
 * Where a start leads. A library that was just set up shows the earliest demo run that has footage, once all of
 * the demo is in; any other shows the Library.
 * @param fresh whether this start set the library up
 * @returns null while the demo is still being taken in
 */
export function whereToStart(
  fresh: boolean,
  reviews: readonly Pick<ReviewSummary, 'id' | 'day' | 'clipIds'>[],
  jobs: readonly Pick<JobReport, 'name' | 'state'>[],
): Route | null {
  if (!fresh) return { screen: 'library' };
  const comingIn = jobs.some(
    (job) => job.name === 'review.import' && (job.state === 'waiting' || job.state === 'running'),
  );
  if (comingIn) return null;
  const [first] = reviews
    .filter((review) => review.clipIds.length > 0)
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  return first ? { screen: 'review', reviewId: first.id } : { screen: 'library' };
}
