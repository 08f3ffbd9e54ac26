import { Trash2 } from 'lucide-react';
import { useRef } from 'react';
import type { ReviewSummary } from '../../../src/host/contract/shapes.ts';
import { dayInList, libraryWords as words, percent } from '../../../src/words/library.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { useJobs, useLibrary } from '../stores/react.ts';
import { addressOf } from '../stores/route.ts';
import { copyJob } from '../stores/library.ts';
import { footageStand } from './findReviews.ts';
import { RelinkButton } from '../frame/RelinkButton.tsx';
import styles from './ReviewList.module.css';
import { useRemove } from './useRemove.ts';

/** All reviews as a table; the whole row opens the review, arrow keys go from row to row. */
export function ReviewList({ reviews }: { readonly reviews: readonly ReviewSummary[] }) {
  const table = useRef<HTMLTableElement>(null);
  const { remove, restoreLast } = useRemove();
  const links = (): HTMLAnchorElement[] => [
    ...(table.current?.querySelectorAll<HTMLAnchorElement>('a[data-review]') ?? []),
  ];
  const rowInFocus = (): number => {
    const row = document.activeElement?.closest('tr');
    return links().findIndex((link) => link.closest('tr') === row);
  };
  const step = (by: 1 | -1) => (): void => {
    const all = links();
    const from = rowInFocus();
    const to = from < 0 ? (by > 0 ? 0 : all.length - 1) : Math.min(all.length - 1, Math.max(0, from + by));
    all[to]?.focus();
  };
  const removeAt = (at: number): void => {
    const review = reviews[at];
    if (!review) return;
    links()[at + 1 < reviews.length ? at + 1 : at - 1]?.focus();
    void remove(review);
  };
  useActs({
    'library.down': step(1),
    'library.up': step(-1),
    'library.remove': () => {
      removeAt(rowInFocus());
    },
    'frame.undo': restoreLast,
  });

  return (
    <table ref={table} className={styles['table']} aria-label={words.list}>
      <thead>
        <tr>
          <th scope="col">{words.columns.review}</th>
          <th scope="col">{words.columns.day}</th>
          <th scope="col" className={styles['count']}>
            {words.columns.obstacles}
          </th>
          <th scope="col" className={styles['count']}>
            {words.columns.marks}
          </th>
          <th scope="col">{words.columns.footage}</th>
          <th scope="col">
            <span className={styles['unseen']}>{words.columns.acts}</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {reviews.map((review, at) => (
          <tr key={review.id} className={styles['row']}>
            <th scope="row">
              <a
                className={styles['open']}
                data-review={review.id}
                href={addressOf({ screen: 'review', reviewId: review.id })}
              >
                {review.title}
              </a>
              <span className={styles['team']}>{words.team(review.dog, review.handler)}</span>
            </th>
            <td className={styles['day']}>{review.day === '' ? '' : dayInList(review.day)}</td>
            <td className={styles['count']}>{review.obstacles}</td>
            <td className={styles['count']}>{review.marks}</td>
            <td>
              <Footage review={review} />
            </td>
            <td className={styles['acts']}>
              <Button
                kind="quiet"
                icon={<Trash2 aria-hidden />}
                aria-label={words.removeNamed(review.title)}
                onClick={() => {
                  removeAt(at);
                }}
              >
                {words.remove}
              </Button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Footage({ review }: { readonly review: ReviewSummary }) {
  const clips = useLibrary((view) => view.clips);
  const jobs = useJobs((view) => view.jobs);
  const stand = footageStand(review, clips);
  if (stand.stand === 'none') return <span className={styles['soft']}>{words.footage.none}</span>;
  if (stand.stand === 'ready') return <>{words.footage.ready(stand.clips)}</>;
  if (stand.stand === 'missing') {
    const first = clips.get(stand.clipIds[0] ?? '');
    return (
      <span className={styles['missing']}>
        {words.footage.missing(stand.clipIds.length)}
        {first && <RelinkButton clip={first} />}
      </span>
    );
  }
  const job = stand.clipIds.map((id) => copyJob(clips.get(id), jobs)).find((found) => found);
  if (!job) return <>{words.footage.needsCopy}</>;
  return <>{words.footage.copying(job.total === null ? '' : percent(job.done, job.total))}</>;
}
