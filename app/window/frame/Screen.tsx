import { lazy, Suspense, type ComponentType } from 'react';
import { windowWords } from '../../../src/words/window.ts';
import { Button } from '../look/Button.tsx';
import { useReview, useWorkbench } from '../stores/react.ts';
import type { ReviewScreenName, Route } from '../stores/route.ts';
import styles from './Screen.module.css';

const LibraryScreen = lazy(() => import('../library/LibraryScreen.tsx'));
const SettingsScreen = lazy(() => import('../settings/SettingsScreen.tsx'));

const reviewScreen: Readonly<Record<ReviewScreenName, ComponentType>> = {
  course: lazy(() => import('../course/CourseScreen.tsx')),
  review: lazy(() => import('../review/ReviewScreen.tsx')),
  report: lazy(() => import('../report/ReportScreen.tsx')),
};

/** The screen of a route; screens of a review wait until it is open. */
export function Screen({ route }: { readonly route: Route }) {
  return (
    <Suspense fallback={<p className={styles['wait']}>{windowWords.loading}</p>}>
      {route.screen === 'library' && <LibraryScreen />}
      {route.screen === 'settings' && <SettingsScreen />}
      {'reviewId' in route && <OpenReview screen={route.screen} reviewId={route.reviewId} />}
      {route.screen === 'nowhere' && <Nowhere text={windowWords.nothingHere} />}
    </Suspense>
  );
}

function OpenReview({ screen, reviewId }: { readonly screen: ReviewScreenName; readonly reviewId: string }) {
  const here = useReview((view) => view.id === reviewId);
  const stage = useReview((view) => view.stage);
  const failure = useReview((view) => view.failure);
  if (here && stage === 'failed') return <Nowhere title={windowWords.openFailed} text={failure ?? ''} />;
  if (!here || stage !== 'open') return <p className={styles['wait']}>{windowWords.opening}</p>;
  const Show = reviewScreen[screen];
  return <Show key={reviewId} />;
}

function Nowhere({ title, text }: { readonly title?: string; readonly text: string }) {
  const { route } = useWorkbench();
  return (
    <section className={styles['nowhere']}>
      <h1>{title ?? text}</h1>
      {title !== undefined && <p>{text}</p>}
      <p>
        <Button
          kind="main"
          onClick={() => {
            route.go({ screen: 'library' });
          }}
        >
          {windowWords.backToLibrary}
        </Button>
      </p>
    </section>
  );
}
