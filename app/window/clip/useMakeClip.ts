import { useCallback } from 'react';
import { runJob } from '../../../src/host/contract/link.ts';
import type { ClipKind, ClipWish } from '../../../src/report/clip/wish.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { handOverWords } from '../../../src/words/handOver.ts';
import { useSaveCopy } from '../handOver/useSaveCopy.ts';
import { useWorkbench } from '../stores/react.ts';

/** Makes a clip in the background, once all acts are kept, and says when it is there. Never rejects. */
export function useMakeClip(): (wish: ClipWish, kind: ClipKind) => Promise<void> {
  const { host, notices, review } = useWorkbench();
  const save = useSaveCopy();
  return useCallback(
    async (wish, kind) => {
      try {
        await review.settled();
        const made = await runJob(host, 'clip.write', { wish, kind }, () => undefined);
        notices.getState().say(clipWords.job.done(made.name), {
          label: handOverWords.save,
          run: () => void save(made, handOverWords.saved),
        });
      } catch (error) {
        notices.getState().trouble(error, clipWords.notMade);
      }
    },
    [host, notices, review, save],
  );
}
