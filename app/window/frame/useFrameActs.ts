import { useState } from 'react';
import { windowWords } from '../../../src/words/window.ts';
import { useActs } from '../keys/useActs.ts';
import { useNotices, useReview, useRoute, useWorkbench } from '../stores/react.ts';
import { reviewScreens, type ReviewScreenName } from '../stores/route.ts';
import type { Workbench } from '../stores/workbench.ts';

/** The open state of the sheet of keys, with the ways to show and hide it. */
export interface SheetOfKeys {
  readonly open: boolean;
  show(): void;
  hide(): void;
}

/** Takes the last act of the open review back and says which. Nothing to take back is said too. */
export async function undoAct({ review, notices }: Workbench): Promise<void> {
  const nothing = review.getState().canUndo === null && review.getState().underWay === 0;
  const label = nothing ? null : await review.undo();
  if (label !== null) notices.getState().say(windowWords.undone(label));
  else if (nothing) notices.getState().say(windowWords.undoNothing);
}

/** Does the act again that was taken back last. */
export async function redoAct({ review, notices }: Workbench): Promise<void> {
  const nothing = review.getState().canRedo === null;
  const label = nothing ? null : await review.redo();
  if (label !== null) notices.getState().say(windowWords.redone(label));
  else if (nothing) notices.getState().say(windowWords.redoNothing);
}

/** The acts that can be done on every screen. */
export function useFrameActs(): SheetOfKeys {
  const workbench = useWorkbench();
  const { route, notices } = workbench;
  const [open, setOpen] = useState(false);
  const here = useRoute();
  const reviewId = useReview((view) => view.id);
  const anyNotice = useNotices((n) => n.list.length > 0);
  const onReview = reviewScreens.some((name) => name === here.screen);
  const toReview = (screen: ReviewScreenName) => () => {
    if (reviewId === null) notices.getState().say(windowWords.needsReview);
    else route.go({ screen, reviewId });
  };
  useActs({
    'frame.keys': () => {
      setOpen(true);
    },
    'frame.undo': onReview ? () => void undoAct(workbench) : undefined,
    'frame.redo': onReview ? () => void redoAct(workbench) : undefined,
    'frame.library': () => {
      route.go({ screen: 'library' });
    },
    'frame.settings': () => {
      route.go({ screen: 'settings' });
    },
    'frame.compare': () => {
      route.go({ screen: 'compare', reviewIds: reviewId === null ? [] : [reviewId] });
    },
    'frame.course': toReview('course'),
    'frame.review': toReview('review'),
    'frame.report': toReview('report'),
    'frame.dismiss': anyNotice
      ? () => {
          const last = notices.getState().list.at(-1);
          if (last) notices.getState().dismiss(last.id);
        }
      : undefined,
  });
  return {
    open,
    show: () => {
      setOpen(true);
    },
    hide: () => {
      setOpen(false);
    },
  };
}
