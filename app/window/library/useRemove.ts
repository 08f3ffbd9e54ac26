import { useRef } from 'react';
import type { ReviewSummary } from '../../../src/host/contract/shapes.ts';
import { libraryWords as words } from '../../../src/words/library.ts';
import { useWorkbench } from '../stores/react.ts';

/** Removing a review from the list, and bringing the last one back. */
export interface Remove {
  remove(review: Pick<ReviewSummary, 'id' | 'title'>): Promise<void>;
  restoreLast(): void;
}

export function useRemove(): Remove {
  const { host, notices, review: openReview } = useWorkbench();
  const removed = useRef<Pick<ReviewSummary, 'id' | 'title'>[]>([]);

  const restore = async (review: Pick<ReviewSummary, 'id' | 'title'>): Promise<void> => {
    removed.current = removed.current.filter((r) => r.id !== review.id);
    try {
      await host.call('review.restore', { reviewId: review.id });
      notices.getState().say(words.broughtBack(review.title));
    } catch (error) {
      notices.getState().trouble(error);
    }
  };

  return {
    async remove(review) {
      try {
        await host.call('review.remove', { reviewId: review.id });
        if (openReview.getState().id === review.id) openReview.closeReview();
        removed.current.push(review);
        notices.getState().say(words.removed(review.title), {
          label: words.undo,
          run: () => void restore(review),
        });
      } catch (error) {
        notices.getState().trouble(error);
      }
    },
    restoreLast() {
      const last = removed.current.at(-1);
      if (last) void restore(last);
    },
  };
}
