import { useEffect } from 'react';
import { windowWords } from '../../../src/words/window.ts';
import { NewReviewDialog } from '../library/NewReviewDialog.tsx';
import { wearTheme } from '../look/theme.ts';
import { useNotices, usePreferences, useRoute, useWorkbench } from '../stores/react.ts';
import styles from './App.module.css';
import { Bar } from './Bar.tsx';
import { DropPlace } from './DropPlace.tsx';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import { KeySheet } from './KeySheet.tsx';
import { NoticePlace } from './NoticePlace.tsx';
import { fetchScreens, Screen } from './Screen.tsx';
import { useFrameActs } from './useFrameActs.ts';

/** The frame: one bar on the left, the screen, and a place for notices under it that covers nothing. */
export function App() {
  const theme = usePreferences((p) => p.theme);
  useEffect(() => wearTheme(theme), [theme]);
  useEffect(fetchScreens, []);
  const route = useRoute();
  const { review, intake, route: routes } = useWorkbench();
  const reviewId = 'reviewId' in route ? route.reviewId : null;
  useEffect(() => {
    if (reviewId !== null) review.openReview(reviewId);
  }, [review, reviewId]);
  useEffect(
    () =>
      intake.onReview((id) => {
        routes.go({ screen: 'review', reviewId: id });
      }),
    [intake, routes],
  );
  const sheet = useFrameActs();
  const anyNotice = useNotices((n) => n.list.length > 0);

  return (
    <div className={styles['frame']}>
      <a
        className={styles['skip']}
        href="#main"
        onClick={(event) => {
          event.preventDefault();
          document.getElementById('main')?.focus();
        }}
      >
        {windowWords.skip}
      </a>
      <Bar onKeys={sheet.show} />
      <main id="main" className={styles['main']} tabIndex={-1}>
        <ErrorBoundary key={route.screen}>
          <Screen route={route} />
        </ErrorBoundary>
      </main>
      <div className={styles['notices']} data-any={anyNotice}>
        <NoticePlace />
      </div>
      <NewReviewDialog />
      <DropPlace />
      <KeySheet open={sheet.open} onClose={sheet.hide} />
    </div>
  );
}
