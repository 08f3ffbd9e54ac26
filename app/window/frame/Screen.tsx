import { lazy, Suspense, type ComponentType } from 'react';
import { windowWords } from '../../../src/words/window.ts';
import { Button } from '../look/Button.tsx';
import { useReview, useWorkbench } from '../stores/react.ts';
import { addressOf, type ReviewScreenName, type Route } from '../stores/route.ts';
import styles from './Screen.module.css';
import { Start } from './Start.tsx';

const load = {
  library: () => import('../library/LibraryScreen.tsx'),
  settings: () => import('../settings/SettingsScreen.tsx'),
  course: () => import('../course/CourseScreen.tsx'),
  review: () => import('../review/ReviewScreen.tsx'),
  compare: () => import('../compare/CompareScreen.tsx'),
  report: () => import('../report/ReportScreen.tsx'),
};

const LibraryScreen = lazy(load.library);
const SettingsScreen = lazy(load.settings);
const CompareScreen = lazy(load.compare);

const reviewScreen: Readonly<Record<ReviewScreenName, ComponentType>> = {
  course: lazy(load.course),
  review: lazy(load.review),
  report: lazy(load.report),
};

/** Fetches the screens that are not shown yet, so that a key pressed right after going there is not lost. */
export function fetchScreens(): void {
  // One that cannot be fetched now is asked for again, and complained about, when it is shown.
  for (const fetchScreen of Object.values(load)) fetchScreen().catch(() => undefined);
}

/** The screen of a route; screens of a review wait until it is open. */
export function Screen({ route }: { readonly route: Route }) {
  return (
    <Suspense fallback={<p className={styles['wait']}>{windowWords.loading}</p>}>
      {route.screen === 'library' && <LibraryScreen />}
      {route.screen === 'settings' && <SettingsScreen />}
      {route.screen === 'compare' && <CompareScreen key={addressOf(route)} reviewIds={route.reviewIds} />}
      {'reviewId' in route && <OpenReview screen={route.screen} reviewId={route.reviewId} />}
      {route.screen === 'start' && <Start />}
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
